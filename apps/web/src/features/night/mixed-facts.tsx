import { phrase, type Row } from '@bakehouse/records';
import { celsiusText } from '@bakehouse/kernel';

const degrees = (milli: number | null): string => (milli === null ? '–' : celsiusText(milli));

/** A mix as it was, with the friction factor against what the formula expects and what may explain it. */
export function MixedFacts({
  mixed: m,
}: {
  readonly mixed: Pick<Row<'mixed'>, 'minutesSlow' | 'minutesFast' | 'waterMilli' | 'flourMilli' | 'roomMilli' | 'doughMilli'> & Friction;
}) {
  return (
    <>
      <p>
        {m.minutesSlow ?? '–'} min slow, {m.minutesFast ?? '–'} min fast. Water {degrees(m.waterMilli)}, flour {degrees(m.flourMilli)}, room{' '}
        {degrees(m.roomMilli)}, dough {degrees(m.doughMilli)}.
      </p>
      <FrictionLine found={{ frictionMilli: m.frictionMilli, expectedFrictionMilli: m.expectedFrictionMilli, causes: m.causes }} />
    </>
  );
}

type Friction = Pick<Row<'mixed'>, 'frictionMilli' | 'expectedFrictionMilli' | 'causes'>;

export function FrictionLine({ found: { frictionMilli, expectedFrictionMilli, causes } }: { readonly found: Friction }) {
  if (frictionMilli === null) return <p className="faint">With water, flour, room and dough temperature the friction factor follows.</p>;
  return (
    <p>
      Friction factor {celsiusText(frictionMilli)}
      {expectedFrictionMilli === null ? '' : ` against ${celsiusText(expectedFrictionMilli)} expected`}.
      {causes.length === 0
        ? ''
        : ` It may be ${causes.map((c) => `${phrase(`friction.${c.what}`)}: ${c.actual} instead of ${c.planned}`).join('; ')}.`}
    </p>
  );
}
