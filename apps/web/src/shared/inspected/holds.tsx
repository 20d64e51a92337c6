import type { InspectedChecks } from '@bakehouse/contracts';
import { dayTime, ofLot } from '../trace/words';
import { Empty, StateWord } from '../../ui';
import { whenAndWhoText } from './when-and-who';

interface Props extends Pick<InspectedChecks, 'held' | 'heldPlaces'> {
  readonly zone: string;
}

/** Holds on lots and on places that began or ended in a period: what, how much is left of it, why, and how each ended. */
export const Holds = (props: Props) => (
  <>
    <HeldLots {...props} />
    {props.heldPlaces.length === 0 ? null : <HeldPlaces {...props} />}
  </>
);

type Ended = NonNullable<InspectedChecks['held'][number]['lifted']>;
const endedText = ({ at, by, why }: Ended, zone: string): string =>
  `${dayTime(at, zone)}${by === null ? '' : ` by ${by}`}${why === null ? '' : `: “${why}”`}`;

function HeldLots({ held, zone }: Props) {
  if (held.length === 0) return <Empty>Nobody put a lot on hold by hand in this time, or lifted a hold.</Empty>;
  return (
    <ul className="rows">
      {held.map((h) => (
        <li key={h.id} className="row">
          {h.lifted ? (
            <StateWord shape="disc" tone="good">
              lifted
            </StateWord>
          ) : (
            <StateWord shape="gate" tone="bad">
              on hold
            </StateWord>
          )}
          <span className="row-main">
            <strong>{h.lotName ?? 'a lot'}</strong> {h.because}
            {h.lifted ? `; lifted ${endedText(h.lifted, zone)}` : ''}
            {h.left === null ? '; how much is left of it is not known' : `; left of it now by the records: ${ofLot(h.left)}`}
          </span>
          <span className="row-side">{whenAndWhoText(h, zone)}</span>
        </li>
      ))}
    </ul>
  );
}

const HeldPlaces = ({ heldPlaces, zone }: Props) => (
  <>
    <h3>Places put on hold</h3>
    <ul className="rows">
      {heldPlaces.map((h) => (
        <li key={h.id} className="row">
          <span className="row-main">
            <strong>{h.place}</strong> {h.because}: what was there from {dayTime(h.from, zone)}
            {h.to === null ? '' : ` until ${dayTime(h.to, zone)}`}
            {h.ended === null ? '' : `; may be used again since ${endedText(h.ended, zone)}`}
          </span>
          <span className="row-side">{whenAndWhoText(h, zone)}</span>
        </li>
      ))}
    </ul>
  </>
);
