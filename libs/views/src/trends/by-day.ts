import type { TrendDay } from '@bakehouse/contracts';
import { grouped, siteDay } from '@bakehouse/kernel';

export interface ReadOnDay {
  readonly at: string;
  readonly value: number;
  readonly verdict: string;
  readonly doubted: boolean;
}
interface Site {
  readonly zone: string;
  readonly dayStarts: string;
}

/** The middle of numbers in order: of an even number of them, half way between the two in the middle. */
export function middleOf(inOrder: readonly number[]): number | null {
  const half = inOrder.length / 2;
  const [below, above] = [inOrder[Math.ceil(half) - 1], inOrder[Math.floor(half)]];
  return below === undefined || above === undefined ? null : (below + above) / 2;
}

/** Each day of a site on which something was read, or was due and was not, the first first. What cannot be right has no part in how low or high it was. */
export function byDay(readings: readonly ReadOnDay[], notTaken: readonly { readonly at: string }[], site: Site): TrendDay[] {
  const read = grouped(readings, (r) => siteDay(r.at, site));
  const missed = grouped(notTaken, (n) => siteDay(n.at, site));
  return [...new Set([...read.keys(), ...missed.keys()])]
    .sort()
    .map((day) => dayOf(day, read.get(day) ?? [], missed.get(day)?.length ?? 0));
}

function dayOf(day: string, all: readonly ReadOnDay[], notTaken: number): TrendDay {
  const believed = all.filter((r) => r.verdict !== 'not-believable');
  const values = believed.map((r) => r.value).sort((a, b) => a - b);
  return {
    day,
    readings: believed.length,
    lowest: values[0] ?? null,
    middle: middleOf(values),
    highest: values.at(-1) ?? null,
    outside: believed.filter((r) => r.verdict === 'outside' && !r.doubted).length,
    toConfirm: believed.filter((r) => r.doubted || r.verdict === 'unsure').length,
    notBelievable: all.length - believed.length,
    notTaken,
  };
}
