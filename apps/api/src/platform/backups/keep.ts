/** How many periods back the newest backup of each is kept. */
export const keptPeriods = { days: 7, weeks: 5, months: 12 } as const;

const dayMs = 86_400_000;
const dayOf = (at: Date): number => Math.floor(at.getTime() / dayMs);
/** Weeks begin on Monday; 1 January 1970 was a Thursday. */
const weekOf = (at: Date): number => Math.floor((dayOf(at) + 3) / 7);
const monthOf = (at: Date): number => at.getUTCFullYear() * 12 + at.getUTCMonth();

/**
 * Which of these backups are kept: the newest of each of the last seven days, five weeks and twelve months (UTC) that have one. Days without
 * a backup do not count, so that a service that stood still for a month loses none by that.
 */
export function toKeep(instants: readonly Date[]): readonly Date[] {
  const newestFirst = [...instants].sort((a, b) => b.getTime() - a.getTime());
  const kept = new Set([
    ...newestOfEach(newestFirst, dayOf, keptPeriods.days),
    ...newestOfEach(newestFirst, weekOf, keptPeriods.weeks),
    ...newestOfEach(newestFirst, monthOf, keptPeriods.months),
  ]);
  return newestFirst.filter((at) => kept.has(at));
}

function newestOfEach(newestFirst: readonly Date[], periodOf: (at: Date) => number, most: number): readonly Date[] {
  const first = new Map<number, Date>();
  for (const at of newestFirst) if (!first.has(periodOf(at))) first.set(periodOf(at), at);
  return [...first.values()].slice(0, most);
}
