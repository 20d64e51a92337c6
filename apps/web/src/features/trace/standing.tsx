import type { ConcernView, TraceView } from '@bakehouse/contracts';
import { concernText } from '@bakehouse/records';
import { isOnHold } from '@bakehouse/views';
import { Link } from 'wouter';
import { whole } from '../../shared/format';
import { office } from '../../shared/office-paths';
import { dayTime } from '../../shared/trace/words';
import { WayOut } from '../../shared/way-out';
import { Mark, StateWord } from '../../ui';
import { DividedStanding } from './divided';

/** What speaks against the lot that was asked for, the gravest first. */
export const concernsOf = ({ onHand }: Pick<TraceView, 'onHand'>, lot: string): readonly ConcernView[] =>
  onHand.find((o) => o.lot === lot)?.concerns ?? [];

interface Props {
  readonly trace: TraceView;
  readonly lot: string;
  readonly title: string;
  readonly zone: string;
  readonly onDone: () => void;
}

/** How the lot stands: the loudest thing of its page where it is on hold. */
export function LotStanding({ trace, lot, title, zone, onDone }: Props) {
  const here = trace.onHand.find((o) => o.lot === lot);
  const concerns = concernsOf(trace, lot);
  const [first, ...more] = concerns;
  // Divided, and nothing of it kept as one: its food is what it became. Where some of it is still here as it was, that stands by itself.
  if (here === undefined && trace.dividedInto !== null) return <DividedStanding trace={trace} of={trace.dividedInto} zone={zone} />;
  if (here === undefined)
    return (
      <div className="lot-standing">
        <StateWord shape="ring" tone="calm">
          By the records none of it is left
        </StateWord>
        <StillHolds trace={trace} lot={lot} title={title} onDone={onDone} />
      </div>
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
          <strong>On hold since {dayTime(first.since, zone)}.</strong> {concernText(first)}
        </p>
        {first.from === lot ? null : (
          <p>
            {first.certain ? 'Came with' : 'Possibly came with'} <Link href={office.lot(first.from)}>{first.fromName}</Link>.
          </p>
        )}
        {more.length === 0 ? null : <p>{whole(more.length)} more reasons stand with it under “Still in the house”.</p>}
        <WaysOut concerns={concerns} lot={lot} title={title} onDone={onDone} />
      </div>
    </div>
  );
}

type Ending = Pick<Props, 'lot' | 'title' | 'onDone'> & { readonly concerns: readonly ConcernView[] };

/** How each of what speaks against it is ended. */
const WaysOut = ({ concerns, lot, title, onDone }: Ending) => (
  <div className="buttons">
    {concerns.map((c) => (
      <WayOut key={c.id} concern={c} lot={lot} name={title} onDone={onDone} />
    ))}
  </div>
);

/** None of it is left, and what was made of it is on hold because of it: it is ended here all the same. */
function StillHolds({ trace, lot, title, onDone }: Omit<Props, 'zone'>) {
  const because = trace.onHand.flatMap((o) => o.concerns.filter((c) => c.from === lot));
  const begins = [...new Map(because.map((c) => [c.id, c])).values()];
  if (begins.length === 0) return null;
  return (
    <>
      <p>What was made of it: {begins.map(concernText).join('; ')}</p>
      <WaysOut concerns={begins} lot={lot} title={title} onDone={onDone} />
    </>
  );
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
