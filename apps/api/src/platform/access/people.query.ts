/**
 * What somebody holds at an instant, as parts of a statement whose `$1` is the organisation. `person` and `now` are columns or parameters
 * of that statement, never what somebody typed. A role counts from when it was given until its end or until it is taken away.
 */
export const rolesInForce = (person: string, now: string): string => `
  SELECT g.role, g.site FROM role_given g
  WHERE g.organisation = $1 AND g.person = ${person} AND g.since <= ${now} AND (g.until IS NULL OR g.until > ${now})
    AND NOT EXISTS (SELECT FROM role_taken t WHERE t.organisation = $1 AND t.given = g.id AND t.at <= ${now})`;

/** The accesses of an inspector: until they expire or are ended. */
export const accessesInForce = (person: string, now: string): string => `
  SELECT a.sites, a."from", a."until", a.expires FROM access_given a
  WHERE a.organisation = $1 AND a.person = ${person} AND a.at <= ${now} AND a.expires > ${now}
    AND NOT EXISTS (SELECT FROM access_ended e WHERE e.organisation = $1 AND e.access = a.id AND e.at <= ${now})`;

export const hasLeft = (person: string, now: string): string =>
  `EXISTS (SELECT FROM person_left l WHERE l.organisation = $1 AND l.person = ${person} AND l.at <= ${now})`;
