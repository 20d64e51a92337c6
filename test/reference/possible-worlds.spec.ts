import { traceForward, whole } from '@bakehouse/graph';
import { describe, expect, it } from '@jest/globals';
import { doubtfulGraph } from '../support/doubtful-graph.js';
import { worldsOf } from '../support/possible-world.js';
import { mulberry } from '../support/seeded.js';

const [graphs, worlds] = [2000, 20];
const of = (share: bigint): number => Number(share) / Number(whole);

describe('shares in possible worlds', () => {
  it('hold in every world that fits the records', () => {
    const random = mulberry(8);
    const slack: number[] = [];
    const wrong: object[] = [];
    let [lots, met, tried, fitted] = [0, 0, 0, 0];
    for (let n = 0; n < graphs; n += 1) {
      const graph = doubtfulGraph(random);
      const reached = traceForward(graph, ['S']);
      const found = new Map<string, { min: number; max: number }>();
      const world = worldsOf(graph, new Set(reached.keys()), random);
      for (let w = 0; w < worlds; w += 1) {
        const drawn = world();
        tried += 1;
        if (drawn === null) continue;
        fitted += 1;
        for (const [lot, { mass, suspect }] of drawn) {
          const { minMg, maxMg } = reached.get(lot) ?? { minMg: 0, maxMg: 0 };
          if (suspect < (minMg ?? 0) * (1 - 1e-9) - 1e-6 || suspect > (maxMg ?? Infinity) * (1 + 1e-9) + 1e-6)
            wrong.push({ n, lot, minMg, suspect, maxMg });
          if (mass === 0) continue;
          const [share, so] = [suspect / mass, found.get(lot)];
          found.set(lot, { min: Math.min(so?.min ?? 1, share), max: Math.max(so?.max ?? 0, share) });
        }
      }
      for (const [lot, { min, max }] of found) {
        const r = reached.get(lot);
        if (r && (r.min === null || r.max === null)) continue;
        const [low, high] = [of(r?.min ?? 0n), of(r?.max ?? 0n)];
        if (min < low - 1e-9 || max > high + 1e-9) wrong.push({ n, lot, low, min, max, high });
        if (!r) continue;
        lots += 1;
        slack.push(Math.max(0, min - low), Math.max(0, high - max));
        met += Number(min - low < 0.01) + Number(high - max < 0.01);
      }
    }
    slack.sort((a, b) => a - b);
    const at = (part: number): string => ((slack[Math.floor(slack.length * part)] ?? 0) * 100).toFixed(1);
    const mean = (slack.reduce((a, b) => a + b, 0) / slack.length) * 100;
    process.stdout.write(
      `shares: ${lots} lots in ${graphs} graphs, ${fitted} of ${tried} worlds fit; ${((met / slack.length) * 100).toFixed(1)} % of the bounds were met within 1 %; ` +
        `between bound and extreme on average ${mean.toFixed(2)} %, median ${at(0.5)} %, 95 of 100 within ${at(0.95)} %\n`,
    );
    expect(wrong.slice(0, 3)).toEqual([]);
  });
});
