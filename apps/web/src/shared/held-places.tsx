import { placesOnHold } from '@bakehouse/views';
import { useMemo } from 'react';
import { SignedReason } from './signed-reason';
import { useTabletState } from './tablet-context';
import { OnHold } from './concerns';
import { dayTime } from './trace/words';
import { useNight } from './night/use-night';
import { Empty } from '../ui';

interface Props {
  /** One place alone; null for all of them. */
  readonly place: string | null;
  readonly onDone: () => void;
}

/** The places that are on hold, with why and since when, and for each the way to say that it may be used again. */
export function HeldPlaces({ place, onDone }: Props) {
  const { lookup, now } = useNight();
  const { site } = useTabletState();
  const here = new Set(lookup.snapshot.place.map((p) => p.id));
  const held = useMemo(() => placesOnHold(lookup.state, now), [lookup, now]);
  const shown = held.filter((h) => (place === null ? here.has(h.place) : h.place === place));
  if (shown.length === 0) return <Empty>{place === null ? 'No place is on hold.' : 'It is not on hold.'}</Empty>;
  return (
    <ul className="rows">
      {shown.map((h) => (
        <li key={h.id} className="row">
          <OnHold />
          <span className="row-main">
            <strong>{h.placeName}</strong> {h.because}, since {dayTime(h.begins, site.zone)}
            {h.over === null ? ', until it may be used again' : `, until ${dayTime(h.over, site.zone)}`}
          </span>
          <MayBeUsed hold={h.id} name={h.placeName} onDone={onDone} />
        </li>
      ))}
    </ul>
  );
}

const MayBeUsed = ({ hold, name, onDone }: { readonly hold: string; readonly name: string; readonly onDone: () => void }) => (
  <SignedReason
    text="May be used again"
    label={`May be used again: ${name}`}
    title={`May ${name} be used again?`}
    onDone={onDone}
    why="What was done, and why it may be used again"
    sign="Sign: it may be used again"
    draft={(why) => ({ kind: 'place-hold-ended', payload: { hold }, words: { why } })}
  >
    <p>
      What comes there from now on is not on hold for this. What was there until now stays on hold: decide on it lot by lot, under what is
      on hold in the office.
    </p>
  </SignedReason>
);
