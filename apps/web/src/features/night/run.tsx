import { countText } from '@bakehouse/kernel';
import { phrase } from '@bakehouse/records';
import { additionsAsked, type RunView } from '@bakehouse/views';
import { useState } from 'react';
import { Link } from 'wouter';
import { mass, wallTime, whole } from '../../shared/format';
import { Button, Caution, Choice, For, LinkButton, Notice, Screen, Section, StateWord } from '../../ui';
import { Concerns } from '../../shared/concerns';
import { HoldLot } from '../../shared/hold-lot';
import { codeText } from '../../shared/night/code-text';
import { useAllTheSame } from '../../shared/night/all-the-same';
import { openFor } from '../../shared/night/lots';
import { AdditionsAsked } from './additions-asked';
import { LotTrouble } from './lot-cell';
import { MoreLoadedWord } from './more-loaded';
import { paths } from '../../shared/night/paths';
import { useCountedText } from './same-pieces';
import { Stages } from './stages';
import { useAct } from '../../shared/use-act';
import { useNight } from '../../shared/night/use-night';
import { NotHere } from '../../shared/night/not-here';

/** Pieces of one product from one make: proved, topped, baked, finished, counted out. */
export function Run({ id }: { readonly id: string }) {
  const { view } = useNight();
  const counted = useCountedText();
  const make = view.makes.find((m) => m.runs.some((r) => r.id === id));
  const run = make?.runs.find((r) => r.id === id);
  const back = { to: make ? paths.make(make.id) : paths.today, text: make?.name ?? 'Today’s bake' };
  if (!make || !run) return <NotHere title="Product" back={back} what="product run" />;
  return (
    <Screen
      title={`${run.name} × ${whole(run.pieces)}`}
      back={back}
      actions={
        <>
          <LinkButton to={paths.count(id)} look={run.loaded > 0 ? 'go' : 'plain'}>
            Count out
          </LinkButton>
          <LinkButton to={paths.loadNew}>Into the oven</LinkButton>
        </>
      }
    >
      <p className="faint">
        {mass(run.scalingMg)} each
        {run.moreLoaded > 0 ? '' : ` · ${whole(run.loaded)} of ${whole(run.pieces)} baked`}
      </p>
      <LoadedTwice run={run} />
      <Concerns concerns={run.concerns} lot={id} />
      <Section title="Prove, retard, cool, freeze">
        <Stages subjectType="run" subject={id} stages={run.stages} />
      </Section>
      <Section title="On the product">
        <Additions run={run} make={make.id} formulaVersion={make.formulaVersion} />
      </Section>
      {run.batches.length === 0 ? null : (
        <Section title="Counted out">
          <ul className="rows">
            {run.batches.map((b) => (
              <li key={b}>
                <Link href={paths.batch(b)} className="row">
                  <span className="row-main">{view.batches.find((v) => v.id === b)?.code}</span>
                  <span className="row-side">{counted(b)}</span>
                </Link>
              </li>
            ))}
          </ul>
        </Section>
      )}
      <div className="buttons">
        <LinkButton to={paths.report('run', id)}>Report a deviation</LinkButton>
        <HoldLot lot={id} name={run.name} />
      </div>
      <Caution />
    </Screen>
  );
}

/** More went in than there was: each load with who recorded it, so that the one that is not so can be put right or taken back. */
function LoadedTwice({ run }: { readonly run: RunView }) {
  const { state, zone } = useNight();
  if (run.moreLoaded === 0) return null;
  const lines = state.snapshot.loadLine.filter((l) => l.run === run.id);
  const by = (load: string): string => {
    const doer = state.rows.get('load', load)?.doneBy;
    const name = state.snapshot.person.find((p) => p.id === doer)?.name;
    return name ? ` by ${name}` : '';
  };
  return (
    <Notice tone="bad" title={`${whole(run.moreLoaded)} more in the oven than were made up`}>
      <MoreLoadedWord run={run} />
      <ul className="rows">
        {lines.map((l) => (
          <li key={l.id}>
            <Link href={paths.load(l.load)} className="row">
              <span className="row-main">
                {countText(l.pieces, 'piece')}, in {wallTime(l.at, zone)}
                {by(l.load)}
              </span>
              <span className="row-side">put it right</span>
            </Link>
          </li>
        ))}
      </ul>
      <p>Perhaps two people loaded the same pieces. Look what is there; correct or take back the load that is not so.</p>
    </Notice>
  );
}

/** Tin oil, wash, seeds, glaze, dusting. What comes after the oven is said to, since nothing makes it safe any more. */
function Additions({ run, make, formulaVersion }: { readonly run: RunView; readonly make: string; readonly formulaVersion: string }) {
  const { lookup, state, now } = useNight();
  const { act, busy, trouble } = useAct();
  const { unlessTroubled, asked } = useAllTheSame();
  const [other, setOther] = useState(false);
  const row = state.rows.get('make', make);
  const planned =
    state.rows.get('formulaVersion', formulaVersion)?.content.products.find((p) => p.product === run.product)?.additions ?? [];
  const missing = additionsAsked(lookup, [run.id]);
  const open = openFor(lookup, row?.station ?? null, row?.at ?? now, now);
  const lotOf = (material: string): string | null => open.filter((o) => o.material === material).at(-1)?.lot ?? null;
  const put = (material: string, afterOven: boolean): void => {
    const lot = lotOf(material);
    const lines = [{ material, lot, quantity: null, how: 'estimated' as const }];
    unlessTroubled([lot], () => void act({ kind: 'added-on', payload: { targetType: 'run', target: run.id, afterOven, lines } }));
  };
  return (
    <>
      {trouble}
      {asked}
      <Added run={run} />
      {missing.length === 0 ? null : (
        <>
          <StateWord shape="diamond" tone="ask">
            by its formula, and not on record yet
          </StateWord>
          <For needs="record">
            <AdditionsAsked list={missing} />
          </For>
        </>
      )}
      <For needs="record">
        <div className="buttons">
          {planned.map((a) => (
            <Button key={`${a.material} ${a.after}`} disabled={busy} onClick={() => put(a.material, a.after === 'after-oven')}>
              {`+ ${a.name}, ${phrase(`addition.${a.after}`)}`} <LotTrouble lot={lotOf(a.material)} />
            </Button>
          ))}
          <Button look="quiet" onClick={() => setOther(true)}>
            Something else
          </Button>
        </div>
      </For>
      {other ? (
        <SomethingElse
          onChosen={(material, afterOven) => {
            put(material, afterOven);
            setOther(false);
          }}
        />
      ) : null}
    </>
  );
}

function Added({ run }: { readonly run: RunView }) {
  return (
    <>
      {run.added.length === 0 ? null : (
        <ul className="rows">
          {run.added.map((l, i) => (
            <li key={`${l.lot} ${i}`} className="row">
              <span className="row-main">
                <strong>{l.name}</strong> {phrase(`flow.${l.type}`)}
              </span>
              <span className="row-side">{codeText(l.code)}</span>
            </li>
          ))}
        </ul>
      )}
      {run.added.some((l) => l.type === 'after-oven') ? (
        <Notice tone="ask" title="Put on after the oven">
          <p>No heat follows: what was put on last is as safe as its own lot is.</p>
        </Notice>
      ) : null}
    </>
  );
}

function SomethingElse({ onChosen }: { readonly onChosen: (material: string, afterOven: boolean) => void }) {
  const { state } = useNight();
  const [after, setAfter] = useState<'no' | 'yes'>('no');
  const others = [
    ...new Map(
      state.snapshot.specification
        .filter((s) => s.type === 'ingredient' || s.type === 'aid' || s.type === 'intermediate')
        .map((s) => [s.material, s.name]),
    ).entries(),
  ].sort((a, b) => a[1].localeCompare(b[1]));
  return (
    <>
      <Choice
        label="When is it put on?"
        value={after}
        onChange={setAfter}
        options={[
          { value: 'no', text: 'before the oven' },
          { value: 'yes', text: 'after the oven' },
        ]}
      />
      <div className="buttons">
        {others.map(([id, name]) => (
          <Button key={id} onClick={() => onChosen(id, after === 'yes')}>{`+ ${name}`}</Button>
        ))}
      </div>
    </>
  );
}
