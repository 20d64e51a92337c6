import { traceForward, whole, type Reached } from '@bakehouse/graph';
import { describe, expect, it } from '@jest/globals';
import { cameIn, circularRecords } from '../support/circle-world.js';
import { doubtfulGraph } from '../support/doubtful-graph.js';
import { worldsOf, type Content } from '../support/possible-world.js';
import { mulberry } from '../support/seeded.js';
import { size } from '../support/size.js';

const [graphs, worlds] = [size(2000, 20_000), 20];
const of = (share: bigint): number => Number(share) / Number(whole);

/** The smallest and the largest share that was met, and the least that the lot weighed. */
interface Extremes {
  readonly min: number;
  readonly max: number;
  readonly lightest: number;
}

/** Holds what is said of lots against what they are in worlds: what is wrong, and how far the bounds are from the extremes that were met. */
class Held {
  readonly wrong: object[] = [];
  private readonly slack: number[] = [];
  private lots = 0;
  private met = 0;
  private drawn = 0;
  private fitted = 0;

  /** One graph: what is said of its lots, and worlds of it, of which some may come to nothing. */
  against(n: number, reached: ReadonlyMap<string, Reached>, world: () => ReadonlyMap<string, Content> | null): void {
    const found = new Map<string, Extremes>();
    for (let w = 0; w < worlds; w += 1) {
      const drawn = world();
      this.drawn += 1;
      if (drawn === null) continue;
      this.fitted += 1;
      for (const [lot, { mass, suspect }] of drawn) {
        const r = reached.get(lot);
        const { minMg, maxMg } = r ?? { minMg: 0, maxMg: 0 };
        // A part of what weighs whole milligrams is rounded to one.
        if (suspect < (minMg ?? 0) * (1 - 1e-9) - 1 || suspect > (maxMg ?? Infinity) * (1 + 1e-9) + 1)
          this.wrong.push({ n, lot, minMg, suspect, maxMg });
        if (mass === 0) continue;
        const [share, so] = [suspect / mass, found.get(lot)];
        const [min, max] = [Math.min(so?.min ?? 1, share), Math.max(so?.max ?? 0, share)];
        found.set(lot, { min, max, lightest: Math.min(so?.lightest ?? mass, mass) });
      }
    }
    for (const [lot, extremes] of found) this.compare(n, lot, reached.get(lot), extremes);
  }

  private compare(n: number, lot: string, r: Reached | undefined, { min, max, lightest }: Extremes): void {
    if (r && (r.min === null || r.max === null)) return;
    const [low, high] = [of(r?.min ?? 0n), of(r?.max ?? 0n)];
    // What pieces weigh together is a whole milligram.
    const rounded = 1e-9 + Math.min(0.001, 1 / lightest);
    if (min < low - rounded || max > high + rounded) this.wrong.push({ n, lot, low, min, max, high });
    if (!r) return;
    this.lots += 1;
    this.slack.push(Math.max(0, min - low), Math.max(0, high - max));
    this.met += Number(min - low < 0.01) + Number(high - max < 0.01);
  }

  report(what: string): void {
    const slack = [...this.slack].sort((a, b) => a - b);
    const at = (part: number): string => ((slack[Math.floor(slack.length * part)] ?? 0) * 100).toFixed(1);
    const mean = (slack.reduce((a, b) => a + b, 0) / slack.length) * 100;
    process.stdout.write(
      `${what}: ${this.lots} lots in ${graphs} graphs, ${this.fitted} of ${this.drawn} worlds fit; ` +
        `${((this.met / slack.length) * 100).toFixed(1)} % of the bounds were met within 1 %; ` +
        `between bound and extreme on average ${mean.toFixed(2)} %, median ${at(0.5)} %, 95 of 100 within ${at(0.95)} %\n`,
    );
  }
}

describe('shares in possible worlds', () => {
  it('hold in every world that fits the records', () => {
    const [random, held] = [mulberry(8), new Held()];
    for (let n = 0; n < graphs; n += 1) {
      const graph = doubtfulGraph(random);
      const reached = traceForward(graph, ['S']);
      held.against(n, reached, worldsOf(graph, new Set(reached.keys()), random));
    }
    held.report('shares');
    expect(held.wrong.slice(0, 3)).toEqual([]);
  });

  it('hold on circles, whatever happened first', () => {
    const [random, held] = [mulberry(9), new Held()];
    for (let n = 0; n < graphs; n += 1) {
      const records = circularRecords(random);
      held.against(n, traceForward(records.graph, ['S']), () => cameIn(records, random));
    }
    held.report('circles');
    expect(held.wrong.slice(0, 3)).toEqual([]);
  });
});
