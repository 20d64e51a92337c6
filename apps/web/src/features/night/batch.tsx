import { findingText, phrase, type Finding } from '@bakehouse/records';
import { additionsAsked } from '@bakehouse/views';
import { useState } from 'react';
import { Link } from 'wouter';
import { dayText, whenText, whole } from '../../shared/format';
import { Button, Caution, Field, For, LinkButton, Notice, Screen, Section } from '../../ui';
import { HoldLot } from '../../shared/hold-lot';
import { BatchState } from './batch-state';
import { dayTime } from '../../shared/trace/words';
import { office } from '../../shared/office-paths';
import { CorrectIt } from './correct-it';
import { batchText } from '../../shared/night/pieces-text';
import { paths, subjectPath } from '../../shared/night/paths';
import { SignButton } from '../../shared/sign-button';
import { NotSaid } from './not-said';
import { SamePieces } from './same-pieces';
import { useAct } from '../../shared/use-act';
import { useNight } from '../../shared/night/use-night';
import { NotHere } from '../../shared/night/not-here';

/** A batch: whether it is released, and if not, why not and what helps. */
export function Batch({ id }: { readonly id: string }) {
  const { view, zone, now } = useNight();
  const { act, busy, trouble } = useAct();
  const b = view.batches.find((one) => one.id === id);
  const back = { to: paths.today, text: 'Today’s bake' };
  if (!b) return <NotHere title="Batch" back={back} what="batch" />;
  const { release } = b;
  const findings = 'findings' in release ? release.findings : 'since' in release ? release.since : [];
  return (
    <Screen
      title={batchText(b)}
      back={back}
      actions={
        release.state === 'may-go' ? (
          <Button
            needs="record"
            look="go"
            disabled={busy}
            onClick={() => {
              void act({ kind: 'released-by-rule', payload: { batch: id } });
            }}
          >
            Release
          </Button>
        ) : null
      }
    >
      {trouble}
      <p className="sum">
        <BatchState b={b} />
      </p>
      <p>
        Code <strong>{b.code}</strong>
        {b.useBy === null ? '' : ` · use by ${dayText(b.useBy)}`}
        {b.bestBefore === null ? '' : ` · best before ${dayText(b.bestBefore)}`} · counted {whenText(b.at, now, zone)}
        {b.rejects === 0 ? '' : ` · ${whole(b.rejects)} rejected`}
      </p>
      {release.state === 'released' && release.since.length > 0 ? (
        <p className="faint">
          {phrase(`release.${release.way}`)}, {whenText(release.at, now, zone)}
        </p>
      ) : null}
      <NotSaid batch={id} />
      <NotOnRecord run={b.run} />
      <SamePieces b={b} />
      <Findings batch={id} title={titles[release.state]} findings={findings} />
      {findings.length > 0 && !findings.some((f) => f.code === 'recall') ? <ByException batch={id} /> : null}
      <div className="buttons">
        <LinkButton to={paths.report('batch', id)}>Report a deviation</LinkButton>
        <CorrectIt entry={id} />
        <HoldLot lot={id} name={`${b.name}, ${b.code}`} />
      </div>
      <Caution />
    </Screen>
  );
}

/** What the formula puts on the product and nobody recorded: what is in it, and of which lot, is not all known. */
function NotOnRecord({ run }: { readonly run: string }) {
  const { lookup } = useNight();
  const missing = additionsAsked(lookup, [run]);
  if (missing.length === 0) return null;
  return (
    <Section title="Not on record">
      <ul className="rows">
        {missing.map((a) => (
          <li key={a.material}>
            <Link href={paths.run(run)} className="row">
              <span className="row-main">
                <strong>{a.name}</strong>, {phrase(`addition.${a.after}`)}: on it by its formula, and nobody recorded it or of which lot
              </span>
              <For needs="record">
                <span className="row-side">say it</span>
              </For>
            </Link>
          </li>
        ))}
      </ul>
    </Section>
  );
}

const titles = {
  released: 'Found since it was released',
  'may-go': '',
  destroyed: '',
  'on-hold': 'It is on hold for this',
  waits: 'It waits for this',
} as const;

interface FindingsProps {
  readonly batch: string;
  readonly title: string;
  readonly findings: readonly Finding[];
}

function Findings({ batch, title, findings }: FindingsProps) {
  const { lookup, zone } = useNight();
  if (findings.length === 0) return null;
  const to = (f: Finding): string => {
    if (f.deviation !== null) return paths.deviation(f.deviation);
    if (f.code === 'weigh-again' && f.concern !== null && lookup.state.get('deviation', f.concern)) return paths.deviation(f.concern);
    if (f.code === 'recall' && f.concern !== null) return office.recall(f.concern);
    if (f.code === 'held' || f.code === 'place-held' || f.code === 'refused') return office.lot(f.subject);
    // To the make that it went into, where the line is corrected.
    const into =
      f.code === 'lot-not-known'
        ? lookup.state.find('flow', 'source', f.subject).find(({ target }) => lookup.state.get('make', target))
        : undefined;
    if (into) return subjectPath('make', into.target);
    if (f.code === 'lot-not-known') return office.lot(f.subject);
    const type = (['load', 'make', 'run'] as const).find((one) => lookup.state.get(one, f.subject));
    return subjectPath(type ?? 'batch', f.subject);
  };
  /** When the instrument failed: what else was read with it since its last good check is in doubt as well. */
  const since = (f: Finding): string => {
    const at = f.code === 'weigh-again' ? lookup.concerns.get(batch)?.find((r) => r.concern.id === f.concern)?.concern.since : undefined;
    return at === undefined ? '' : `, ${dayTime(at, zone)}`;
  };
  /** Named where it begins at something else: the way back to it may be long. */
  const begins = (f: Finding): string => {
    const name = lookup.state.get('lot', f.subject)?.name;
    return f.concern === null || f.subject === batch || name === undefined ? '' : `, from ${name}`;
  };
  return (
    <Section title={title}>
      <ul className="rows">
        {findings.map((f, i) => (
          <li key={`${f.code} ${f.subject} ${i}`}>
            <Link href={to(f)} className="row">
              <span className="row-main">
                <strong>{findingText(f)}</strong>
                {since(f)}
                {begins(f)}
              </span>
            </Link>
          </li>
        ))}
      </ul>
    </Section>
  );
}

function ByException({ batch }: { readonly batch: string }) {
  const [why, setWhy] = useState('');
  return (
    <For needs="decide.exception">
      <details>
        <summary>Release by exception, signed with a PIN</summary>
        <Notice tone="ask" title="Only with a reason that would stand before an officer">
          <Field label="Reason for the exception" value={why} onChange={setWhy} lines={2} maxLength={400} />
        </Notice>
        <SignButton
          text="Sign and release by exception"
          draft={{ kind: 'released-by-exception', payload: { batch }, words: { why } }}
          disabled={why.trim() === ''}
        />
      </details>
    </For>
  );
}
