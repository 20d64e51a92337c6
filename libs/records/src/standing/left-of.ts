import { how, latest } from '@bakehouse/kernel';
import * as z from 'zod';
import type { Row } from '../base/state.js';

/** What an amount of a lot is counted in. */
export const measure = z.enum(['mg', 'pieces']);
export type Measure = z.infer<typeof measure>;
/** What the balance of a lot says. */
export const balanceFinding = z.enum(['none', 'not-all-accounted', 'more-than-there-was', 'nobody-counted', 'unknown-amounts']);
export type BalanceFinding = z.infer<typeof balanceFinding>;
/** What may have put a balance out: how an amount is known, or that it is not. */
export const balanceCause = z.enum([...how.options, 'not-known']);
export type BalanceCause = z.infer<typeof balanceCause>;
export interface Moved {
  readonly id: string;
  readonly at: string;
  readonly mg: number | null;
  readonly pieces: number | null;
  /** A signed decision took all that was left then: after it there is nothing, however much it was. */
  readonly decided?: Row<'departure'>['decided'];
}
export interface Movements {
  readonly into: readonly Moved[];
  /** What came back to it after it had left. */
  readonly back: readonly Moved[];
  readonly out: readonly Moved[];
  readonly counts: readonly Moved[];
}

/**
 * What is left of a lot by the records: from its last count or from when the rest of it was destroyed, or else from its stated amount, or else from what
 * went into it; with what came back, less what went out. May be below zero, which is a finding. Null where the start or any movement has no figure. `unit` is milligrams or pieces.
 */
export function leftOf(stated: number | null, { into, back, out, counts }: Movements, unit: Measure): number | null {
  const count = latest([...counts.filter((c) => c[unit] !== null), ...out.filter((m) => m.decided === 'rest').map(nothing)]);
  const since = (m: Moved): boolean => !count || m.at > count.at;
  // A stated amount already holds what went in before it: only vessels and makes start from their inflows. What came back it does not hold.
  const came = [...(count || stated === null ? into : []), ...back].filter(since);
  if (!count && stated === null && into.length === 0) return null;
  const [plus, minus] = [sumOf(came, unit), sumOf(out.filter(since), unit)];
  const start = count ? count[unit] : (stated ?? 0);
  return plus === null || minus === null || start === null ? null : start + plus - minus;
}

const nothing = (m: Moved): Moved => ({ ...m, mg: 0, pieces: 0 });

function sumOf(moved: readonly Moved[], unit: Measure): number | null {
  return moved.reduce<number | null>((total, m) => (total === null || m[unit] === null ? null : total + m[unit]), 0);
}

interface LotRows {
  readonly into: readonly Moved[];
  readonly out: readonly Moved[];
  readonly departures: readonly Moved[];
  readonly returned: readonly (Moved & { readonly disposition: string })[];
  readonly counts: readonly Moved[];
}

/** The movements of one lot up to an instant, or all on record, from its rows. What came back and went straight to waste or rework did not come back to the lot. */
export function movementsUntil(rows: LotRows, at: string | null): Movements {
  const until = <T extends Moved>(some: readonly T[]): T[] => some.filter((row) => at === null || row.at <= at);
  return {
    into: until(rows.into),
    back: until(rows.returned.filter((c) => c.disposition === 'on-hand')),
    out: until([...rows.out, ...rows.departures]),
    counts: until(rows.counts),
  };
}
