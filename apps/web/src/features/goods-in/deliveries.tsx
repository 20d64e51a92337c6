import { deliveries, type Deliveries as Answer } from '@bakehouse/contracts';
import { phrase, type PhraseKey } from '@bakehouse/domain';
import { Link } from 'wouter';
import { dayText } from '../../shared/format';
import { office } from '../../shared/office-paths';
import { useTabletState } from '../../shared/tablet-context';
import { dayTime, ofLot } from '../../shared/trace/words';
import { Caution, Empty, LinkButton, Screen, Section, StateWord, VerdictMark } from '../../shared/ui';
import { Shown, useLoaded } from '../../shared/use-loaded';
import { DecideKeys } from './decide-keys';

type Delivery = Answer[number];
type Line = Delivery['lines'][number];

/** What came in during the last 30 days: what waits for a decision or a name on top. */
export function GoodsIn() {
  const { site } = useTabletState();
  const loaded = useLoaded(`/sites/${site.id}/deliveries`, deliveries);
  const reload = (): void => void loaded.reload();
  return (
    <Screen
      title="Goods in"
      back={{ to: office.home, text: 'Office' }}
      actions={
        <LinkButton to={office.goodsNew} look="go">
          A delivery came
        </LinkButton>
      }
    >
      <Shown of={loaded}>
        {(all) => {
          const waiting = all.filter((d) => d.lines.some(needsSomebody));
          const settled = all.filter((d) => !waiting.includes(d));
          return (
            <>
              <Section title="Waits for a decision or a name">
                {waiting.length === 0 ? (
                  <Empty>Nothing waits.</Empty>
                ) : (
                  waiting.map((d) => <One key={d.id} d={d} zone={site.zone} onDone={reload} />)
                )}
              </Section>
              <Section title="The last 30 days">
                {settled.length === 0 ? (
                  <Empty>Nothing else came in the last 30 days.</Empty>
                ) : (
                  settled.map((d) => <One key={d.id} d={d} zone={site.zone} onDone={reload} />)
                )}
              </Section>
            </>
          );
        }}
      </Shown>
      <Caution />
    </Screen>
  );
}

const outside = (l: Line): boolean => l.temperature !== null && l.temperature.verdict !== 'within' && l.temperature.verdict !== 'no-limit';
const needsSomebody = (l: Line): boolean => (l.decision === null && outside(l)) || (l.codeState === 'not-known-yet' && !l.named);

function One({ d, zone, onDone }: { readonly d: Delivery; readonly zone: string; readonly onDone: () => void }) {
  return (
    <article className="delivery">
      <h3>
        {d.supplierName ?? 'supplier not known'}, {dayTime(d.receivedAt, zone)}
      </h3>
      <p className="faint">
        {d.note === null ? 'no paper' : `note ${d.note}`}
        {d.unattended ? ' · found, nobody was there' : ''}
      </p>
      <ul className="rows">
        {d.lines.map((l) => (
          <LineRow key={l.lot} l={l} onDone={onDone} />
        ))}
      </ul>
    </article>
  );
}

function LineRow({ l, onDone }: { readonly l: Line; readonly onDone: () => void }) {
  const dates = [
    ...(l.useBy === null ? [] : [`use by ${dayText(l.useBy)}`]),
    ...(l.bestBefore === null ? [] : [`best before ${dayText(l.bestBefore)}`]),
  ];
  return (
    <li className="row">
      <span className="row-main">
        <Link href={office.lot(l.lot)}>
          <strong>{l.name}</strong>
        </Link>{' '}
        {l.asWritten ?? ofLot(l)}
        <br />
        <span className="faint">
          {l.code === null ? phrase(`codeState.${l.codeState}` as PhraseKey) : `lot ${l.code}${l.named ? ', named later' : ''}`}
          {dates.length === 0 ? '' : ` · ${dates.join(', ')}`}
          {l.used ? ' · used already' : ''}
        </span>
      </span>
      {l.temperature === null ? null : (
        <span>
          {l.temperature.figure ?? '–'} °C {phrase(`measured.${l.temperature.measured}` as PhraseKey)}{' '}
          <VerdictMark verdict={l.temperature.verdict} />
        </span>
      )}
      {l.held ? (
        <StateWord shape="bar" tone="bad">
          held
        </StateWord>
      ) : null}
      <Decision l={l} />
      <DecideKeys
        lot={l.lot}
        name={l.name}
        decided={l.decision !== null}
        toName={l.codeState === 'not-known-yet' && !l.named}
        onDone={onDone}
      />
    </li>
  );
}

function Decision({ l: { decision } }: { readonly l: Line }) {
  if (!decision)
    return (
      <StateWord shape="ring" tone="calm">
        not decided
      </StateWord>
    );
  const text = phrase(`decision.${decision.decision}`);
  switch (decision.decision) {
    case 'accepted':
      return (
        <StateWord shape="disc" tone="good">
          {text}
        </StateWord>
      );
    case 'refused':
      return (
        <StateWord shape="triangle" tone="bad">
          {text}
        </StateWord>
      );
    case 'with-a-condition':
      return <StateWord shape="diamond" tone="ask">{`${text} ${decision.condition ?? ''}`}</StateWord>;
  }
}
