import type { Row } from '../base/state.js';

/**
 * The accesses in force of one inspector at an instant, at one site. Empty: nothing may be seen. Which days may be seen is what they say;
 * the caller passes the rows of that person only.
 */
export function accessesInForce(
  given: readonly Row<'accessGiven'>[],
  ended: readonly Row<'accessEnded'>[],
  site: string,
  at: string,
): Row<'accessGiven'>[] {
  const over = new Set(ended.filter((e) => e.at <= at).map((e) => e.access));
  return given.filter((g) => g.sites.includes(site) && g.at <= at && at < g.expires && !over.has(g.id));
}

/** Whether an access lets its holder see the records of a day. `today` closes a period that was left open. */
export function letsSee(access: Pick<Row<'accessGiven'>, 'from' | 'until'>, day: string, today: string): boolean {
  return access.from <= day && day <= (access.until ?? today);
}
