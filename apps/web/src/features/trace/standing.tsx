import type { ConcernView, TraceView } from '@bakehouse/contracts';
import { concernText } from '@bakehouse/records';
import { isOnHold } from '@bakehouse/views';
import { Link } from 'wouter';
import { whole } from '../../shared/format';
import { office } from '../../shared/office-paths';
import { dayTime } from '../../shared/trace/words';
import { Mark, StateWord } from '../../ui';
import { DividedStanding } from './divided';

/** What speaks against the lot that was asked for, the gravest first. */
export const concernsOf = ({ onHand }: Pick<TraceView, 'onHand'>, lot: string): readonly ConcernView[] =>
  onHand.find((o) => o.lot === lot)?.concerns ?? [];

/** How the lot stands: the loudest thing of its page where it is on hold. */
export function LotStanding({ trace, lot, zone }: { readonly trace: TraceView; readonly lot: string; readonly zone: string }) {
  const here = trace.onHand.find((o) => o.lot === lot);
  const concerns = concernsOf(trace, lot);
  const [first, ...more] = concerns;
  // Divided, and nothing of it kept as one: its food is what it became. Where some of it is still here as it was, that stands by itself.
  if (here === undefined && trace.dividedInto !== null) return <DividedStanding trace={trace} of={trace.dividedInto} zone={zone} />;
  if (here === undefined)
    return (
      <p className="lot-standing">
        <StateWord shape="ring" tone="calm">
          By the records none of it is left
        </StateWord>
      </p>
    );
  if (first === undefined || !isOnHold(here))
    return (
      <p className="lot-standing">
        <StateWord shape="ring" tone="calm">
          Not on hold
        </StateWord>
      </p>
    );
  return (
    <div className="lot-standing held">
      <Mark shape="gate" tone="bad" />
      <div>
        <p>
          <strong>On hold since {dayTime(first.since, zone)}.</strong> {concernText(first)} <CaseLink of={first} />
        </p>
        {first.from === lot ? null : (
          <p>
            {first.certain ? 'Came with' : 'Possibly came with'} <Link href={office.lot(first.from)}>{first.fromName}</Link>.
          </p>
        )}
        {more.length === 0 ? null : <p>{whole(more.length)} more reasons stand with it under “Still in the house”.</p>}
      </div>
    </div>
  );
}

function CaseLink({ of }: { readonly of: ConcernView }) {
  if (of.type === 'recall') return <Link href={office.recall(of.id)}>Go to the case</Link>;
  if (of.type === 'open-deviation' || of.type === 'closed-deviation')
    return <Link href={`/table/deviation/${of.id}`}>Go to the deviation</Link>;
  return null;
}

/** The cases that the lot is in, open or closed, with how many of those on this page's list were told in them. */
export function CasesOf({ trace: { cases, contacts }, zone }: { readonly trace: TraceView; readonly zone: string }) {
  return cases.map((c) => (
    <p key={c.id}>
      <StateWord shape={c.closedAt === null ? 'gate' : 'ring'} tone={c.closedAt === null && !c.practice ? 'bad' : 'calm'}>
        {c.practice ? 'In a practice' : 'Recalled'}
      </StateWord>{' '}
      <Link href={office.recall(c.id)}>
        {c.hazardName}, {c.closedAt === null ? `open since ${dayTime(c.openedAt, zone)}` : `closed ${dayTime(c.closedAt, zone)}`}
      </Link>
      {c.practice ? '' : `: ${whole(contacts.filter((e) => e.reached).length)} of ${whole(contacts.length)} on the list below told`}
    </p>
  ));
}
