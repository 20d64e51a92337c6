import { recallList } from '@bakehouse/contracts';
import { countText } from '@bakehouse/kernel';
import { phrase, type PhraseKey } from '@bakehouse/records';
import { toReachText } from '@bakehouse/views';
import { useMemo } from 'react';
import { Link } from 'wouter';
import type * as z from 'zod';
import { whole } from '../../shared/format';
import { office } from '../../shared/office-paths';
import { useTabletState } from '../../shared/tablet-context';
import { dayTime } from '../../shared/trace/words';
import { Button, Notice, Screen, Section, StateWord } from '../../ui';
import { DataTable, type Column } from '../../ui/table';
import { LoadingText, Shown, useLoaded } from '../../shared/use-loaded';
import { useUpToDate } from '../../shared/use-up-to-date';

type Cases = z.infer<typeof recallList>;

/** All recall cases, open ones first. */
export function Recalls() {
  const loaded = useLoaded('/recalls', recallList);
  const { site } = useTabletState();
  const columns = useMemo(() => columnsIn(site.zone), [site.zone]);
  return (
    <Screen title="Recalls" wide back={{ to: office.home, text: 'Office' }}>
      <p>
        A case begins at a lot: find it by its code in the box on top, then “Open a recall”. A practice is opened the same way; it puts
        nothing on hold.
      </p>
      <Shown of={loaded}>
        {(cases) => (
          <DataTable
            label="Recall cases"
            columns={columns}
            rows={cases}
            keyOf={(c) => c.id}
            to={(c) => office.recall(c.id)}
            none="No case was ever opened here. A practice shows whether it would work."
          />
        )}
      </Shown>
    </Screen>
  );
}

/** Cases that are open, or closed with food still on hold for them, for the office’s first page; nothing where it is known that there are none. */
export function OpenRecalls() {
  const { reply, reload } = useLoaded('/recalls', recallList);
  useUpToDate(reload);
  // A real one stands before a practice, whichever was opened last.
  const open = (reply?.as === 'ok' ? reply.value.filter((c) => !isDone(c)) : []).sort((a, b) => Number(a.practice) - Number(b.practice));
  if (reply?.as === 'ok' && open.length === 0) return null;
  return (
    <Section title="Open recalls">
      {reply === undefined ? <LoadingText what="whether a recall is open" /> : null}
      {reply && reply.as !== 'ok' ? <NotKnown again={() => void reload()} /> : null}
      {open.length === 0 ? null : <CaseRows cases={open} />}
    </Section>
  );
}

const NotKnown = ({ again }: { readonly again: () => void }) => (
  <Notice tone="ask" title="Whether a recall is open is not known here now">
    <p>It is asked of the bakehouse’s computer, which did not answer.</p>
    <div className="buttons">
      <Button onClick={again}>Ask again</Button>
    </div>
  </Notice>
);

function CaseRows({ cases }: { readonly cases: Cases }) {
  const {
    site: { zone },
  } = useTabletState();
  return (
    <ul className="rows">
      {cases.map((c) => (
        <li key={c.id}>
          <Link href={office.recall(c.id)} className="row">
            <CaseState of={c} />
            <span className="row-main">
              <strong>{c.hazardName}</strong> {phrase(`hazard.${c.hazard}` as PhraseKey)}, {countText(c.lots, 'lot')}
              {c.toReach === null ? null : (
                <>
                  {' · '}
                  <strong>{toReachText(c.toReach)}</strong>
                </>
              )}
            </span>
            <span className="row-side">{dayTime(c.openedAt, zone)}</span>
          </Link>
        </li>
      ))}
    </ul>
  );
}

const stateText = ({ practice, closedAt, held }: Cases[number]): string =>
  `${practice ? 'practice, ' : ''}${closedAt === null ? 'open' : held === 0 ? 'closed' : `closed, ${whole(held)} still on hold`}`;

/** Closed, and nothing is on hold for it any more. */
const isDone = ({ closedAt, held }: Cases[number]): boolean => closedAt !== null && held === 0;

function CaseState({ of: c }: { readonly of: Cases[number] }) {
  return !isDone(c) ? (
    <StateWord shape="gate" tone={c.practice ? 'ask' : 'bad'}>
      {stateText(c)}
    </StateWord>
  ) : (
    <StateWord shape="disc" tone="good">
      {stateText(c)}
    </StateWord>
  );
}

const columnsIn = (zone: string): readonly Column<Cases[number]>[] => [
  { id: 'what', head: 'What it is about', text: (c) => c.hazardName },
  { id: 'state', head: 'State', text: stateText, shown: (c) => <CaseState of={c} /> },
  { id: 'hazard', head: 'Hazard', text: (c) => phrase(`hazard.${c.hazard}` as PhraseKey) },
  { id: 'lots', head: 'Lots in scope', text: (c) => whole(c.lots), by: (c) => c.lots, look: 'figure' },
  { id: 'reach', head: 'Customers', text: (c) => (c.toReach === null ? '' : toReachText(c.toReach)), by: (c) => c.toReach },
  { id: 'opened', head: 'Opened', text: (c) => dayTime(c.openedAt, zone), by: (c) => c.openedAt },
  { id: 'closed', head: 'Closed', text: (c) => (c.closedAt === null ? '' : dayTime(c.closedAt, zone)), by: (c) => c.closedAt },
];
