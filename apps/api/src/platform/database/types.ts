import pg from 'pg';

const { builtins } = pg.types;

/** `2026-11-25 04:40:00.5+01` → `2026-11-24T…Z`: an instant as ISO 8601 in UTC with milliseconds, as entries carry it. */
export function isoInstant(text: string): string {
  const [, day, time, fraction = '', zone] = /^(\d{4}-\d\d-\d\d) (\d\d:\d\d:\d\d)(?:\.(\d+))?([+-]\d\d(?::\d\d)?)$/.exec(text) ?? [];
  if (day === undefined || time === undefined || zone === undefined) throw new RangeError(`not an instant of our era: ${text}`);
  const ms = fraction.padEnd(3, '0').slice(0, 3);
  if (zone === '+00') return `${day}T${time}.${ms}Z`;
  return new Date(`${day}T${time}.${ms}${zone.length === 3 ? `${zone}:00` : zone}`).toISOString();
}

/** A 64-bit integer as a number; beyond 2^53 − 1 it would lie, so it throws. */
export function safeInteger(text: string): number {
  const value = Number(text);
  if (!Number.isSafeInteger(value)) throw new RangeError(`integer too large for a number: ${text}`);
  return value;
}

const asText = (text: string): string => text;
const ours = new Map<number, (text: string) => unknown>([
  [builtins.INT8, safeInteger],
  [builtins.TIMESTAMPTZ, isoInstant],
  [builtins.DATE, asText],
  [builtins.NUMERIC, asText],
]);

/** How the service's connections read values: integers as numbers, instants and days as ISO text, decimals as text. Arrays and the rest as pg does. */
export const valueTypes: pg.CustomTypesConfig = {
  getTypeParser: (oid: number, format?: 'text' | 'binary') =>
    (format !== 'binary' && ours.get(oid)) || pg.types.getTypeParser(oid, format ?? 'text'),
};
