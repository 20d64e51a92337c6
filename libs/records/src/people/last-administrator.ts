import type { Need, Row, State } from '../base/state.js';

/** Who may give roles. Loaded first. */
export const administratorsNeed: Need = { in: 'roleGiven', by: 'role', value: 'administrator' };

const given = (state: State): readonly Row<'roleGiven'>[] => state.find('roleGiven', 'role', 'administrator');

/** What tells which of them still may, loaded once they are there. */
export const administratorsThen = (state: State): Need[] =>
  given(state).flatMap((g): Need[] => [
    { in: 'roleTaken', by: 'given', value: g.id },
    { in: 'personLeft', by: 'person', value: g.person },
  ]);

/**
 * Whether a house would be without an administrator at an instant if these givings of the role counted no more: nobody could give a role again.
 * Where no administrator is known (a device holds no roles) the answer is no. Needs `administratorsNeed` and `administratorsThen`.
 */
export function leavesNobody(state: State, at: string, ending: (g: Row<'roleGiven'>) => boolean): boolean {
  const now = given(state).filter(
    (g) =>
      g.site === null &&
      (g.until === null || g.until > at) &&
      state.find('roleTaken', 'given', g.id).length === 0 &&
      state.find('personLeft', 'person', g.person).length === 0,
  );
  return now.some(ending) && now.every((g) => ending(g) || g.until !== null);
}
