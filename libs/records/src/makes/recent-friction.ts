import { sizeTellingPercent } from './friction.js';

/** One mixing of a formula at a mixer: its friction factor in thousandths of a Celsius difference (three-term sum), and how it was mixed. */
export interface RecentMix {
  readonly frictionMilli: number;
  readonly at: string;
  readonly minutesSlow: number | null;
  readonly minutesFast: number | null;
  readonly scalePpm: number | null;
}
export interface Planned {
  readonly minutesSlow: number | null;
  readonly minutesFast: number | null;
  readonly sizePpm: number;
}
export interface FrictionFound {
  /** The middle one of the mixes that compare, in thousandths of a Celsius difference; null where none does. */
  readonly milli: number | null;
  readonly leastMilli: number | null;
  readonly maxMilli: number | null;
  readonly used: readonly RecentMix[];
  /** Mixes of other minutes or another size: not used, since a factor belongs to both. */
  readonly others: readonly RecentMix[];
}

/** As many mixes as are looked at, the newest first; minutes within this of the planned ones compare. Common practice, no source. */
const maxUsed = 7;
const minutesApart = 1;
/** Where nobody planned an amount, the formula's own is taken to be meant. */
const asWritten = 1_000_000;

/**
 * The friction factor of a formula on one mixer from its last mixes: the median of up to seven whose minutes and size compare with what is planned.
 * A factor belongs to formula × mixer × size × minutes; mixes whose minutes nobody noted do not compare with planned ones. Common practice, no source.
 */
export function recentFriction(mixes: readonly RecentMix[], planned: Planned): FrictionFound {
  const newest = [...mixes].sort((a, b) => (a.at < b.at ? 1 : a.at > b.at ? -1 : 0));
  const used = newest.filter((mix) => compares(mix, planned)).slice(0, maxUsed);
  const sorted = used.map((mix) => mix.frictionMilli).sort((a, b) => a - b);
  const [low, high] = [sorted[Math.ceil(sorted.length / 2) - 1], sorted[Math.floor(sorted.length / 2)]];
  return {
    milli: low === undefined || high === undefined ? null : Math.round((low + high) / 2),
    leastMilli: sorted[0] ?? null,
    maxMilli: sorted.at(-1) ?? null,
    used,
    others: newest.filter((mix) => !compares(mix, planned)).slice(0, maxUsed),
  };
}

function compares(mix: RecentMix, planned: Planned): boolean {
  const near = (a: number | null, b: number | null): boolean => b === null || (a !== null && Math.abs(a - b) <= minutesApart);
  const size = Math.abs((mix.scalePpm ?? asWritten) - planned.sizePpm) <= (planned.sizePpm * sizeTellingPercent) / 100;
  return near(mix.minutesSlow, planned.minutesSlow) && near(mix.minutesFast, planned.minutesFast) && size;
}
