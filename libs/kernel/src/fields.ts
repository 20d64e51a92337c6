import * as z from 'zod';
import { canonical, temperatureUnits, unit, type Unit } from './units.js';

/** Identifier of something recorded; UUIDv7 when a device made it, UUIDv8 when it was derived from an entry. */
export const id = z.uuid().toLowerCase();
/** The id of an entry, made by its device. */
export const entryId = z.uuidv7().toLowerCase();
const [calendarBegins, calendarEnds] = [Date.parse('1900-01-01T00:00:00Z'), Date.parse('9999-01-01T00:00:00Z')];
/** Whether an instant, in milliseconds since 1970, is one that a record may tell of. */
export const isInCalendar = (ms: number): boolean => ms >= calendarBegins && ms < calendarEnds;
/** An instant on the wire: ISO 8601 with the offset that the clock on the wall had. */
export const instantWithOffset = z.iso
  .datetime({ offset: true })
  .refine((at) => isInCalendar(Date.parse(at)), { message: 'an instant from 1900 to 9998' });
/** An instant in a row: UTC, milliseconds, `Z`. */
export const instant = z.iso.datetime();
export const day = z.iso.date().refine((on) => on >= '1900-01-01' && on < '9999-01-01', { message: 'a date from 1900 to 9998' });
/** A decimal as it was read or written, kept as text so that 25.40 stays 25.40. */
export const figure = z.string().regex(/^-?\d{1,9}(\.\d{1,6})?$/, 'a decimal number such as 25.4');
export const amountFigure = z.string().regex(/^\d{1,9}(\.\d{1,6})?$/, 'a decimal number of zero or more, such as 12.5');
/** The largest canonical whole number of one figure: 1,000 t, 1,000 m³. Thousands of them add up exactly. */
export const largest = 1_000_000_000_000;
/** A figure with its unit, of a size that a bakehouse could hold. */
export const observed = z
  .strictObject({ figure, unit })
  .refine((q) => fits(q.figure, q.unit), { message: 'an amount that a bakehouse could hold', path: ['figure'] });
export const temperature = z.strictObject({ figure, unit: z.enum(temperatureUnits) });
export const name = z.string().trim().min(1).max(120);
export const code = z.string().trim().min(1).max(60);
/** Milligrams, thousandths of a degree C and other canonical integers. */
export const canonicalInteger = z.int();
/** How an amount is known. */
export const how = z.enum(['weighed', 'by-recipe', 'estimated', 'label', 'counted']);
export type How = z.infer<typeof how>;

function fits(value: string, name: Unit): boolean {
  try {
    return Math.abs(canonical(value, name)) <= largest;
  } catch {
    return false;
  }
}
