import { deliveries, type Deliveries as Answer } from '@bakehouse/contracts';
import { daysAfter, grouped, localDay, phrase, siteDay, type PhraseKey } from '@bakehouse/domain';
import { useState } from 'react';
import { Link } from 'wouter';
import { DeliveryPhoto } from '../../shared/delivery-photo';
import { dayText } from '../../shared/format';
import { office } from '../../shared/office-paths';
import { useNow, useTabletState } from '../../shared/tablet-context';
import { dayTime, ofLot } from '../../shared/trace/words';
import { Button, Caution, Empty, Field, LinkButton, Screen, Section, StateWord, VerdictMark } from '../../shared/ui';
import { Shown, useLoaded } from '../../shared/use-loaded';
import { DecideKeys } from './decide-keys';

type Delivery = Answer[number];
type Line = Delivery['lines'][number];

/** What came in, thirty days at a time: what waits for a decision or a name on top, the rest by day, found by any word on it. */
export function GoodsIn() {
  const { site } = useTabletState();
  const today = siteDay(useNow(60_000), site);
  const [until, setUntil] = useState<string>();
  const [wanted, setWanted] = useState('');
  const last = until ?? today;
  const first = daysAfter(last, -daysShown);
  const loaded = useLoaded(`/sites/${site.id}/deliveries?from=${first}&until=${last}`, deliveries);
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
      <Field label="Find a supplier, a note number, a material or a lot code" value={wanted} onChange={setWanted} />
      <Shown of={loaded}>
        {(all) => <Found all={all.filter((d) => says(d, wanted))} zone={site.zone} open={wanted.trim() !== ''} onDone={reload} />}
      </Shown>
      <div className="buttons">
        <Button onClick={() => setUntil(daysAfter(first, -1))}>Earlier than {dayText(first)}</Button>
        {until === undefined ? null : <Button onClick={() => setUntil(undefined)}>The last 30 days</Button>}
      </div>
      <Caution />
    </Screen>
  );
}

const daysShown = 30;

/** Whether every word that is looked for stands somewhere on a delivery. */
function says(d: Delivery, wanted: string): boolean {
  const text = [d.supplierName, d.note, ...d.lines.flatMap((l) => [l.name, l.code, l.asWritten])].join(' ').toLowerCase();
  return wanted
    .toLowerCase()
    .split(/\s+/)
    .every((word) => text.includes(word));
}

interface FoundProps {
  readonly all: Answer;
  readonly zone: string;
  /** Whether the days stand open: somebody looks for something. */
  readonly open: boolean;
  readonly onDone: () => void;
}

function Found({ all, zone, open, onDone }: FoundProps) {
  const waiting = all.filter((d) => d.lines.some(needsSomebody));
  const days = grouped(
    all.filter((d) => !waiting.includes(d)),
    (d) => localDay(d.receivedAt, zone),
  );
  return (
    <>
      <Section title="Waits for a decision or a name">
        {waiting.length === 0 ? <Empty>Nothing waits.</Empty> : waiting.map((d) => <One key={d.id} d={d} zone={zone} onDone={onDone} />)}
      </Section>
      <Section title="By day">
        {days.size === 0 ? <Empty>Nothing else came in these days.</Empty> : null}
        {[...days].map(([day, some], i) => (
          <details key={`${day} ${open}`} open={open || i === 0}>
            <summary>
              {dayText(day)}: {[...new Set(some.map((d) => d.supplierName ?? 'supplier not known'))].join(', ')}
            </summary>
            {some.map((d) => (
              <One key={d.id} d={d} zone={zone} onDone={onDone} />
            ))}
          </details>
        ))}
      </Section>
    </>
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
      {d.photo === null ? null : <Photo photo={d.photo} />}
      <ul className="rows">
        {d.lines.map((l) => (
          <LineRow key={l.lot} l={l} onDone={onDone} />
        ))}
      </ul>
    </article>
  );
}

/** Loaded when somebody asks for it: a list of deliveries fetches no pictures. */
function Photo({ photo }: { readonly photo: string }) {
  const [open, setOpen] = useState(false);
  if (open) return <DeliveryPhoto photo={photo} />;
  return <Button onClick={() => setOpen(true)}>Show the photo</Button>;
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
          {l.code === null
            ? `lot code ${phrase(`codeState.${l.codeState}` as PhraseKey)}`
            : `lot ${l.code}${l.named ? ', named later' : ''}`}
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
