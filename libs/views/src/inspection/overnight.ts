import type { InspectionView } from '@bakehouse/contracts';
import { grouped, siteDay } from '@bakehouse/kernel';
import type { PeriodRecords } from './period-records.js';
import type { BegunBefore, Period } from './rows.js';

/** What a period that ends in the middle of a night shows beyond its end, and what of it is whole on an earlier day. */
export function overnightOf(
  { rows, site }: PeriodRecords,
  { ends }: Period,
  begunBefore: readonly BegunBefore[],
): InspectionView['overnight'] {
  const made = [...rows.stage, ...rows.load, ...rows.loadStep, ...rows.batch, ...rows.reading, ...rows.readingNotTaken];
  const goesOnUntil = made.map((row) => row.at).reduce<string | null>((last, at) => (at >= ends && at > (last ?? '') ? at : last), null);
  const byDay = grouped(begunBefore, (make) => siteDay(make.at, site));
  return { goesOnUntil, begunBefore: [...byDay].map(([day, makes]) => ({ day, makes: makes.map((m) => m.formulaName) })) };
}
