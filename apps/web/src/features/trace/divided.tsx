import type { ConcernView, TraceView } from '@bakehouse/contracts';
import { findingText, phrase } from '@bakehouse/records';
import { Link } from 'wouter';
import { whole } from '../../shared/format';
import { office } from '../../shared/office-paths';
import { amountText, dayTime, ofLot } from '../../shared/trace/words';
import { Mark, StateWord } from '../../ui';

type Divided = NonNullable<TraceView['dividedInto']>;
type Part = Divided['parts'][number];

interface Props {
  readonly trace: TraceView;
  readonly of: Divided;
  readonly zone: string;
}

/** A make that was divided: its food stands where it went, each part by itself, the loudest thing of the page where some of it is on hold. */
export function DividedStanding({ trace, of: { at, parts }, zone }: Props) {
  const held = parts.filter((p) => p.standing === 'on-hold');
  const here = parts.filter((p) => p.left !== null);
  const divided = `Divided ${dayTime(at, zone)}`;
  const [first] = held.flatMap((p) => trace.onHand.find((o) => o.lot === p.lot)?.concerns ?? []);
  if (held.length === 0)
    return (
      <div className="lot-standing">
        <StateWord shape="ring" tone="calm">
          {`${divided}. ${here.length === 0 ? 'By the records nothing of it is left in the house' : `${hereText(here)} in the house, not on hold`}`}
        </StateWord>
        <Parts parts={parts} />
      </div>
    );
  return (
    <div className="lot-standing held">
      <Mark shape="gate" tone="bad" />
      <div>
        <p>
          <strong>
            {`${held.length === here.length ? 'What is left of it is' : `${whole(held.length)} of ${whole(here.length)} parts that are left ${held.length === 1 ? 'is' : 'are'}`} on hold.`}
          </strong>{' '}
          {divided}. {first === undefined ? null : because(first, zone)}
        </p>
        <Parts parts={parts} />
      </div>
    </div>
  );
}

const because = ({ type, what, since }: ConcernView, zone: string): string =>
  `${findingText({ code: type, what })}, since ${dayTime(since, zone)}.`;

const hereText = (here: readonly Part[]): string => (here.length === 1 ? 'Part of it is' : `${whole(here.length)} parts of it are`);

/** Where the food is now: a line for each part, with what is left of it. */
function Parts({ parts }: { readonly parts: readonly Part[] }) {
  return (
    <ul className="divided-into" aria-label="What it was divided into">
      {parts.map((p) => (
        <li key={p.lot}>
          <Link href={office.lot(p.lot)}>
            {p.name}
            {p.code === null ? '' : ` ${p.code}`}
          </Link>
          {p.type === 'batch' ? '' : ` (${phrase(p.type === 'run' ? 'lot.run' : 'lot.old-dough')})`}: {leftText(p)}
          {p.standing === null || p.standing === 'gone' ? '' : `, ${phrase(`standing.${p.standing}`)}`}
        </li>
      ))}
    </ul>
  );
}

function leftText({ left, ...lot }: Part): string {
  const all = ofLot(lot);
  if (left === null) return `none left of ${all}`;
  if (left.amount === null) return `nobody knows how much is left of ${all}`;
  if (left.amount < 0) return `more gone than the ${all} there was, by ${amountText(-left.amount, left.measure)}`;
  return `${amountText(left.amount, left.measure)} left of ${all}`;
}
