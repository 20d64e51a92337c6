import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { folded, maxInColumn } from './fold';
import { endsAlone, layoutOf } from './layout';
import type { DrawnLot, Flow, Flows, Sizes } from './model';

const sizes: Sizes = { scale: 0.01, column: 120, start: 4, slot: 34, top: 40, mirrored: false };

/** Lots that each came of one before them, and ends that each are of one lot. */
const trees = fc
  .record({
    lots: fc.array(fc.record({ before: fc.nat(), weight: fc.nat(9_000), held: fc.boolean() }), { maxLength: 150 }),
    ends: fc.array(fc.record({ of: fc.nat(), weight: fc.nat(900) }), { minLength: 1, maxLength: 30 }),
  })
  .map(({ lots, ends }): Flows => {
    const drawn: DrawnLot[] = [lotAt('l0', 0, 10_000, false)];
    const flows: Flow[] = [];
    for (const l of lots) {
      const from = drawn[l.before % drawn.length] ?? drawn[0];
      if (from === undefined) continue;
      const one = lotAt(`l${drawn.length}`, from.layer + 1, l.weight, l.held);
      drawn.push(one);
      flows.push({ from: from.id, to: one.id, weight: one.weight, look: 'certain' });
    }
    ends.forEach((e, i) => flows.push({ from: `l${e.of % drawn.length}`, to: `e${i}`, weight: e.weight, look: 'certain' }));
    return { unit: 'mg', lots: drawn, flows, ends: ends.map((_, i) => `e${i}`) };
  });
const lotAt = (id: string, layer: number, weight: number, held: boolean): DrawnLot => ({
  id,
  layer,
  name: id,
  code: null,
  at: null,
  lot: id,
  weight,
  held,
  folded: 0,
});
const laidOut = (flows: Flows) => layoutOf(flows, endsAlone(flows, sizes), sizes);
const sum = (all: readonly number[]): number => all.reduce((n, one) => n + one, 0);

describe('the picture of a trace', () => {
  it('makes each lot as high as its bands on the fuller side, and no band is without its two ends', () => {
    fc.assert(
      fc.property(trees, (flows) => {
        const { lots, bands } = laidOut(flows);
        expect(bands).toHaveLength(flows.flows.length);
        for (const l of lots.filter((p) => p.id !== 'l0')) {
          const [into, out] = [
            sum(bands.filter((b) => b.flow.to === l.id).map((b) => b.width)),
            sum(bands.filter((b) => b.flow.from === l.id).map((b) => b.width)),
          ];
          expect(l.height).toBeCloseTo(Math.max(into, out, 4), 6);
        }
      }),
    );
  });

  it('lets no two lots of a column overlap, and has every end', () => {
    fc.assert(
      fc.property(trees, (flows) => {
        const { lots, ends, bands } = laidOut(flows);
        expect(ends.map((e) => e.id)).toEqual(flows.ends);
        for (const e of flows.ends) expect(bands.some((b) => b.flow.to === e)).toBe(true);
        for (const x of new Set(lots.map((l) => l.x))) {
          const column = lots.filter((l) => l.x === x).sort((a, b) => a.top - b.top);
          column.slice(1).forEach((l, i) => expect(l.top).toBeGreaterThanOrEqual((column[i]?.top ?? 0) + (column[i]?.height ?? 0)));
        }
      }),
    );
  });

  it('is the same for the same flows', () => {
    fc.assert(fc.property(trees, (flows) => expect(laidOut(flows)).toEqual(laidOut({ ...flows, lots: [...flows.lots].reverse() }))));
  });

  it('folds 2,000 lots to a column’s most, with nothing lost of their width and number', () => {
    const lots = [lotAt('l0', 0, 10_000, false), ...Array.from({ length: 2_000 }, (_, i) => lotAt(`l${i + 1}`, 1, i, false))];
    const flows = lots.slice(1).map((l): Flow => ({ from: 'l0', to: l.id, weight: l.weight, look: 'certain' }));
    const all = folded({ unit: 'mg', lots, flows, ends: [] });
    const column = all.lots.filter((l) => l.layer === 1);
    expect([column.length, all.flows.length, laidOut(all).bands.length]).toEqual([maxInColumn, maxInColumn, maxInColumn]);
    expect(sum(column.map((l) => Math.max(1, l.folded)))).toBe(2_000);
    expect(sum(column.map((l) => l.weight))).toBe(sum(lots.slice(1).map((l) => l.weight)));
  });
});
