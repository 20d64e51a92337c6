/**
 * The one, or the other where there is none, to look something up by: what `coalesce` says. Behind row-level security PostgreSQL looks nothing up by a
 * `coalesce`, which it does not know to keep what it is given to itself; it reads the whole table for each row instead.
 */
export const either = (one: string, other: string): string => `CASE WHEN ${one} IS NULL THEN ${other} ELSE ${one} END`;
