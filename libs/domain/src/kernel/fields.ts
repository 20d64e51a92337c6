import * as z from 'zod';
import { canonical, temperatureUnits, unit, type Unit } from './units.js';

/** Identifier of something recorded; UUIDv7 when a device made it, UUIDv8 when it was derived from an entry. */
export const id = z.uuid();
/** An instant on the wire: ISO 8601 with the offset that the clock on the wall had. */
export const instantWithOffset = z.iso.datetime({ offset: true });
/** An instant in a row: UTC, milliseconds, `Z`. */
export const instant = z.iso.datetime();
export const day = z.iso.date();
/** A decimal as it was read or written, kept as text so that 25.40 stays 25.40. */
export const figure = z.string().regex(/^-?\d{1,9}(\.\d{1,6})?$/, 'a decimal number such as 25.4');
export const amountFigure = z.string().regex(/^\d{1,9}(\.\d{1,6})?$/, 'a decimal number of zero or more, such as 12.5');
/** A figure with its unit, of a size whose canonical whole number can be kept exactly. */
export const observed = z.strictObject({ figure, unit }).refine((q) => fits(q.figure, q.unit), { message: 'an amount that can be kept exactly', path: ['figure'] });
export const temperature = z.strictObject({ figure, unit: z.enum(temperatureUnits) });
export const name = z.string().trim().min(1).max(120);
export const code = z.string().trim().min(1).max(60);
/** Milligrams, thousandths of a degree C and other canonical integers. */
export const canonicalInteger = z.int();
/** How an amount is known. */
export const how = z.enum(['weighed', 'by-recipe', 'guessed', 'label', 'counted']);
export type How = z.infer<typeof how>;

function fits(value: string, name: Unit): boolean {
  try { return Number.isSafeInteger(canonical(value, name)); } catch { return false; }
}
