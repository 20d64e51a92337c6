import { latest } from '../kernel/order.js';

interface Moved { readonly id: string; readonly at: string; readonly mg: number | null; readonly pieces: number | null }
export interface Movements { readonly into: readonly Moved[]; readonly out: readonly Moved[]; readonly counts: readonly Moved[] }

/**
 * What is left of a lot by the records: from its last count, or else from its stated amount, or else from what went into it; less what went out.
 * May be below zero, which is a finding. Null where the start or any movement has no figure. `in` is milligrams or pieces.
 */
export function leftOf(stated: number | null, { into, out, counts }: Movements, unit: 'mg' | 'pieces'): number | null {
  const count = latest(counts.filter((c) => c[unit] !== null));
  const since = count ? (m: Moved): boolean => m.at > count.at : (): boolean => true;
  // An amount that was stated already holds what went in before: only vessels and makes start from their inflows.
  const came = count ? into.filter(since) : stated === null ? into : [];
  if (!count && stated === null && into.length === 0) return null;
  const sum = (moved: readonly Moved[]): number | null => moved.reduce<number | null>((total, m) => (total === null || m[unit] === null ? null : total + m[unit]), 0);
  const [plus, minus] = [sum(came), sum(out.filter(since))];
  const start = count ? count[unit] : stated ?? 0;
  return plus === null || minus === null || start === null ? null : start + plus - minus;
}
