/**
 * What somebody holds now, as parts of a statement whose `$1` is the organisation. `person` and `now` are columns or parameters
 * of that statement, never what somebody typed. What is recorded counts from then on: a role, its end and a leaving do not wait for the time that a
 * device's clock wrote on them.
 */
export const rolesInForce = (person: string, now: string): string => `
  SELECT g.id, g.role, g.site, g.until FROM role_given g
  WHERE g.organisation = $1 AND g.person = ${person} AND (g.until IS NULL OR g.until > ${now})
    AND NOT EXISTS (SELECT FROM role_taken t WHERE t.organisation = $1 AND t.given = g.id)`;

/** The accesses of an inspector: until they expire or are ended. */
export const accessesInForce = (person: string, now: string): string => `
  SELECT a.id, a.sites, a."from", a."until", a.expires FROM access_given a
  WHERE a.organisation = $1 AND a.person = ${person} AND a.expires > ${now}
    AND NOT EXISTS (SELECT FROM access_ended e WHERE e.organisation = $1 AND e.access = a.id)`;

/** Somebody who has left, or whose joining was taken back. */
export const hasLeft = (person: string): string =>
  `(EXISTS (SELECT FROM person_left l WHERE l.organisation = $1 AND l.person = ${person})
    OR NOT EXISTS (SELECT FROM person j WHERE j.organisation = $1 AND j.id = ${person}))`;
