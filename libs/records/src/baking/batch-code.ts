import { dayOfYear, daysAfter } from '@bakehouse/kernel';
import { sha256 } from '@noble/hashes/sha2.js';
import { utf8ToBytes } from '@noble/hashes/utils.js';
import * as z from 'zod';
import { dateType } from '../rows/formula-content.js';

/** Letters that are not taken for figures or for one another when they are read out on the telephone. */
const letters = 'CDFHJKMNPRTVWXYZ';

/**
 * The code that a device proposes for a batch: last figure of the year and day of the year of the bake, then three letters of the product; a batch
 * whose code is taken gets the next number behind it. The bake day gives the code, whatever the clock says. Our own rule, no standard.
 */
export function proposedCode(bakedOn: string, product: string, taken: readonly string[] = []): string {
  const hash = sha256(utf8ToBytes(product));
  const mark = [0, 1, 2].map((i) => letters[(hash[i] ?? 0) % letters.length]).join('');
  const base = `${bakedOn[3] ?? ''}${String(dayOfYear(bakedOn)).padStart(3, '0')}-${mark}`;
  let code = base;
  for (let number = 2; taken.includes(code); number += 1) code = `${base}-${number}`;
  return code;
}

export interface BatchDates {
  readonly bestBefore: string | null;
  readonly useBy: string | null;
}

/** The date that a batch gets by its formula: so many days after the bake. No date where nobody gave the product a life. */
export function proposedDates(bakedOn: string, of: { lifeDays: number | null; dateType: z.infer<typeof dateType> | null }): BatchDates {
  if (of.lifeDays === null || of.dateType === null) return { bestBefore: null, useBy: null };
  const last = daysAfter(bakedOn, of.lifeDays);
  return of.dateType === 'use-by' ? { bestBefore: null, useBy: last } : { bestBefore: last, useBy: null };
}

export const tooFar = z.enum(['no', ...dateType.options]);
/** Whether a batch is dated further than its formula allows, and which date that is: later, or with a best-before where it has a use-by date. */
export function datedTooFar(dates: BatchDates, proposed: BatchDates): z.infer<typeof tooFar> {
  if (proposed.useBy !== null) return dates.useBy === null || dates.useBy > proposed.useBy ? 'use-by' : 'no';
  return proposed.bestBefore !== null && (dates.bestBefore ?? dates.useBy ?? '') > proposed.bestBefore ? 'best-before' : 'no';
}
