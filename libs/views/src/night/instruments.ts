import { canConvert, latest } from '@bakehouse/kernel';
import type { PointContent, Row, Snapshot } from '@bakehouse/records';

type Asks = Pick<PointContent, 'measured' | 'limit'>;

/** What reaches inside food or between packs is held in a hand: a sensor that hangs in a fridge does not, and a core is not seen from outside. */
const cannot: Readonly<Partial<Record<PointContent['measured'], readonly Row<'instrument'>['type'][]>>> = {
  core: ['fixed-sensor', 'infrared'],
  surface: ['fixed-sensor'],
  'between-packs': ['fixed-sensor'],
  dough: ['fixed-sensor'],
};

/** The instruments in use that can read what is asked. */
export function instrumentsFor({ instrument, instrumentOut }: Snapshot, { measured, limit }: Asks): Row<'instrument'>[] {
  if (limit.type !== 'range') return [];
  const out = new Set(instrumentOut.map((o) => o.instrument));
  const unfit = cannot[measured] ?? [];
  return instrument.filter((i) => !out.has(i.id) && !unfit.includes(i.type) && canConvert(i.unit, limit.unit));
}

/** The one of these that the like was read with last; where there is only one, that; else none. One whose readings would be in doubt is never proposed. */
export function proposedInstrument(
  snapshot: Snapshot,
  asks: Asks,
  usedHere: readonly (string | null)[],
  inDoubt: (instrument: string) => boolean,
): string | null {
  const fit = new Map(
    instrumentsFor(snapshot, asks)
      .filter((i) => !inDoubt(i.id))
      .map((i) => [i.id, i]),
  );
  const last = latest(snapshot.reading.filter((r) => r.measured === asks.measured && r.instrument !== null && fit.has(r.instrument)));
  const [first] = [...usedHere, last?.instrument ?? null].flatMap((id) => (id !== null && fit.has(id) ? [id] : []));
  const [only] = fit.keys();
  return first ?? (fit.size === 1 ? (only ?? null) : null);
}
