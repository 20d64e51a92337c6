import { deliveries, openThings, type Deliveries as Answer, type OpenThings } from '@bakehouse/contracts';
import { daysAfter, grouped, siteDay } from '@bakehouse/kernel';
import { useState } from 'react';
import { dayText } from '../../shared/format';
import { useNow, useTabletState } from '../../shared/tablet-context';
import { Button, Caution, Empty, Field, LinkButton, Screen, Section } from '../../ui';
import { Shown, useLoaded } from '../../shared/use-loaded';
import { needsSomebody, One, type Delivery } from './delivery';
import { NotIdentified } from './not-identified';

/** As many days as the service gives at once. */
const daysShown = 31;

interface Props {
  readonly delivery: string;
  readonly unattended: string;
  readonly back: { readonly to: string; readonly text: string };
}

/** The deliveries of a month, from a day back, and what waits at the site. */
export function useDeliveries(begin?: string) {
  const { site } = useTabletState();
  const today = siteDay(useNow(60_000), site);
  const [until, setUntil] = useState(begin);
  const last = until === undefined || until > today ? today : until;
  const first = daysAfter(last, 1 - daysShown);
  const loaded = useLoaded('/sites/{site}/deliveries', deliveries, {
    params: { path: { site: site.id }, query: { from: first, until: last } },
  });
  const open = useLoaded('/sites/{site}/open', openThings, { params: { path: { site: site.id } } });
  const reload = (): void => {
    void loaded.reload();
    void open.reload();
  };
  const notIdentified = open.reply?.as === 'ok' ? open.reply.value.notIdentified : [];
  return { loaded, notIdentified, reload, days: { first, last, today, onUntil: setUntil } };
}

/** How goods are taken in: with somebody there, or found. */
export const WaysIn = ({ delivery, unattended }: { readonly delivery: string; readonly unattended: string }) => (
  <>
    <LinkButton to={unattended}>Unattended delivery</LinkButton>
    <LinkButton to={delivery} look="go">
      A delivery came
    </LinkButton>
  </>
);

/** What came in, a month at a time: what waits for a decision or a code on top, the rest by day, found by any word on it. */
export function Deliveries({ delivery, unattended, back }: Props) {
  const [wanted, setWanted] = useState('');
  const { loaded, notIdentified, reload, days } = useDeliveries();
  const searching = wanted.trim() !== '';
  return (
    <Screen title="Goods in" back={back} actions={<WaysIn delivery={delivery} unattended={unattended} />}>
      <Field label="Find a supplier, a note number, a material or a lot code" value={wanted} onChange={setWanted} />
      <Shown of={loaded}>
        {(all) => (
          <>
            {searching ? null : <NotIdentified lots={elsewhere(notIdentified, all)} onDone={reload} />}
            <Found all={all.filter((d) => says(d, wanted))} searching={searching} onDone={reload} />
          </>
        )}
      </Shown>
      <Days {...days} />
      <Caution />
    </Screen>
  );
}

/** Lots to name that stand in none of these deliveries: older ones, and those that came with no delivery. */
export const elsewhere = (notIdentified: OpenThings['notIdentified'], all: Answer): OpenThings['notIdentified'] => {
  const here = new Set(all.flatMap((d) => d.lines.map((l) => l.lot)));
  return notIdentified.filter((l) => !here.has(l.lot));
};

interface DaysProps {
  readonly first: string;
  readonly last: string;
  readonly today: string;
  /** Undefined is today, whichever day that is by then. */
  readonly onUntil: (day: string | undefined) => void;
}

/** Which days these are, and the way to others. */
export function Days({ first, last, today, onUntil }: DaysProps) {
  const later = daysAfter(last, daysShown);
  return (
    <>
      <p className="faint">
        These are the days from {dayText(first)} to {dayText(last)}.
      </p>
      <div className="buttons">
        <Button onClick={() => onUntil(daysAfter(first, -1))}>Earlier days</Button>
        {last < today ? <Button onClick={() => onUntil(later < today ? later : undefined)}>Later days</Button> : null}
        {last < today ? <Button onClick={() => onUntil(undefined)}>Up to today</Button> : null}
      </div>
    </>
  );
}

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
  /** Whether somebody looks for something: then the days stand open. */
  readonly searching: boolean;
  readonly onDone: () => void;
}

function Found({ all, searching, onDone }: FoundProps) {
  const { site } = useTabletState();
  const waiting = all.filter((d) => d.lines.some(needsSomebody));
  const days = grouped(
    all.filter((d) => !waiting.includes(d)),
    (d) => siteDay(d.receivedAt, site),
  );
  if (searching && all.length === 0)
    return <Empty>No delivery of these days has that on it. Look at the earlier days, or find the lot from the office.</Empty>;
  return (
    <>
      <Section title="Waits for a decision or a code">
        {waiting.length === 0 ? <Empty>Nothing waits.</Empty> : waiting.map((d) => <One key={d.id} d={d} onDone={onDone} />)}
      </Section>
      <Section title="By day">
        {days.size === 0 ? <Empty>Nothing else came in these days.</Empty> : null}
        {[...days].map(([day, some], i) => (
          <details key={`${day} ${searching}`} open={searching || i === 0}>
            <summary>
              {dayText(day)}: {[...new Set(some.map((d) => d.supplierName ?? 'supplier not known'))].join(', ')}
            </summary>
            {some.map((d) => (
              <One key={d.id} d={d} onDone={onDone} />
            ))}
          </details>
        ))}
      </Section>
    </>
  );
}
