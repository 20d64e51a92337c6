/** One line of the table: any column may be left out. */
export type Row = Readonly<Record<string, string | number | undefined>>;

/** The value below which a share of the samples lies, by the nearest rank. */
export function percentile(samples: readonly number[], share: number): number {
  const sorted = [...samples].sort((a, b) => a - b);
  return sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)] ?? Number.NaN;
}

/** Milliseconds of one call. The result is kept in `sink`, so that the work cannot be optimised away. */
export function timed(work: () => unknown): number {
  const from = performance.now();
  sink = work();
  return performance.now() - from;
}
export let sink: unknown;

/** Milliseconds until a promise is kept. */
export async function timedAsync(work: () => Promise<unknown>): Promise<number> {
  const from = performance.now();
  await work();
  return performance.now() - from;
}

export interface Comparison {
  readonly what: string;
  readonly subject: () => unknown;
  readonly bare: () => unknown;
  readonly target?: number;
  readonly pairs?: number;
}

/** Times two ways of doing the same work in turn, swapping which goes first, and compares medians of the pairs. */
export function compare({ what, subject, bare, target, pairs = 25 }: Comparison): Row {
  for (let warm = 0; warm < 4; warm += 1) {
    timed(subject);
    timed(bare);
  }
  const mine: number[] = [];
  const theirs: number[] = [];
  for (let pair = 0; pair < pairs; pair += 1) {
    if (pair % 2 === 0) mine.push(timed(subject));
    theirs.push(timed(bare));
    if (pair % 2 === 1) mine.push(timed(subject));
  }
  const ratio = percentile(
    mine.map((ms, i) => ms / (theirs[i] ?? Number.NaN)),
    0.5,
  );
  return {
    what,
    'p50 ms': percentile(mine, 0.5),
    'p99 ms': percentile(mine, 0.99),
    'bare p50 ms': percentile(theirs, 0.5),
    ratio,
    target,
    verdict: target === undefined ? undefined : ratio <= target ? 'within' : 'over',
  };
}
