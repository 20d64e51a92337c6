import { systemClock } from '@bakehouse/offline';
import { formulaAt, type RecentMix, type Row, type Snapshot } from '@bakehouse/records';

/** What this device knows of the formula's mixes on one mixer. */
export function mixesOf(snapshot: Snapshot, formula: string, mixer: string | null): readonly RecentMix[] {
  const makes = new Map(snapshot.make.filter((m) => m.formula === formula && m.station === mixer).map((m) => [m.id, m]));
  return snapshot.mixed.flatMap(({ make, frictionMilli, at, minutesSlow, minutesFast }) => {
    const of = makes.get(make);
    return of && frictionMilli !== null ? [{ frictionMilli, at, minutesSlow, minutesFast, scalePpm: of.scalePpm }] : [];
  });
}

/** What type of formula another one takes, by the newest version that this device knows. */
export const typeFrom =
  ({ formulaVersion }: Snapshot) =>
  (formula: string): Row<'formulaVersion'>['type'] | undefined =>
    formulaAt(formulaVersion, formula, systemClock.now().toISOString())?.type;
