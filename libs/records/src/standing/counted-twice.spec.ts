import { concernsOf, workingSetOf } from '@bakehouse/records';
import { describe, expect, it } from '@jest/globals';
import * as fc from 'fast-check';
import { g, night } from '../../../../test/fixtures/bakehouse.js';
import { oneBatch } from '../../../../test/fixtures/one-batch.js';

/** Twenty tins in two loads of ten, both read within: nothing but what is counted speaks against a batch. */
function baked() {
  const n = oneBatch();
  n.loads.forEach((l) => n.core(l, '95.1'));
  const [first, second] = n.loads;
  const count = (code: string, loads: readonly string[], pieces: number, time = '05:00') =>
    n.countOut({ code, loads, pieces }, { at: night(time) }).id;
  const said = (lot: string) =>
    (concernsOf(workingSetOf(n.book.snapshot()), [lot]).get(lot) ?? []).map((r) => [r.concern.type, r.concern.lot, r.concern.what]);
  const types = (lot: string) => said(lot).map(([type]) => type);
  const withdraw = (id: string) =>
    n.book.record('entry-withdrawn', {}, { at: night('05:30'), corrects: id, words: { reason: 'counted twice' } });
  return { ...n, first, second, count, said, types, withdraw };
}

describe('two batches of the same pieces', () => {
  it('of a run are both on hold, by words with both codes and amounts, until one is taken back', () => {
    const n = baked();
    const [one, other] = [n.count('6329-ONE', n.loads, 20), n.count('6329-TWO', n.loads, 20, '05:02')];
    const what = '20 as 6329-ONE and 20 as 6329-TWO, of 20 that were divided';
    for (const lot of [one, other]) expect(n.said(lot)).toEqual([['more-baked-than-divided', n.run, what]]);
    for (const lot of [one, other])
      expect(n.refused(lot)).toMatchObject({ problem: 'not-releasable', acceptable: expect.stringContaining(what) });
    n.withdraw(other);
    expect(n.types(one)).toEqual([]);
    n.release(one, '05:40');
  });

  it('of a load are both on hold, a batch of another load is not, and a correction of the amounts ends it', () => {
    const n = baked();
    const [one, other] = [n.count('6329-ONE', [n.first], 6), n.count('6329-TWO', [n.first], 6, '05:02')];
    const third = n.count('6329-THREE', [n.second], 8, '05:04');
    const what = '6 as 6329-ONE and 6 as 6329-TWO, of 10 in the oven';
    expect([one, other, third].map((lot) => n.said(lot))).toEqual([[['counted-twice', one, what]], [['counted-twice', other, what]], []]);
    expect(n.refused(other).acceptable).toContain('take one of the batches back, or correct a count');
    n.countOut({ code: '6329-TWO', loads: [n.first], pieces: 4 }, { at: night('05:02'), corrects: other, words: { reason: 'miscounted' } });
    expect([one, other, third].map((lot) => n.types(lot))).toEqual([[], [], []]);
  });

  it('is so where each names a load that the other does not, and together they hold more than all of these', () => {
    const n = baked();
    const product = n.book.get('run', n.run)?.product ?? '';
    const runs = [{ run: n.run, product, heads: null, pieces: 40, scaling: g('400') }];
    const divided = { make: n.make, quantity: null, oldDough: null, scrap: null, runs };
    const first = n.book.all('divided')[0]?.id ?? '';
    n.book.record('divided', divided, { at: night('03:30'), corrects: first, words: { reason: 'more of them, and smaller' } });
    const third = n.book.record('load-in', { ...n.loadPayload, lines: [{ run: n.run, pieces: 10 }] }, { at: night('04:14') }).id;
    n.core(third, '95.1');
    const [one, other] = [n.count('6329-ONE', [n.first, n.second], 18), n.count('6329-TWO', [n.second, third], 18)];
    expect([n.types(one), n.types(other)]).toEqual([['counted-twice'], ['counted-twice']]);
  });

  it('is not said of a batch that only may have been of the load: it names none, or more than the load held', () => {
    const n = baked();
    expect([n.count('6329-ONE', [], 10), n.count('6329-TWO', [n.first], 10)].map((lot) => n.types(lot))).toEqual([[], []]);
  });

  it('is found in whichever order they were recorded, corrected and taken back', () => {
    const counts = [
      ['A', 0, 6, '05:00'],
      ['B', 0, 6, '05:01'],
      ['C', 1, 8, '05:02'],
      ['D', 1, 9, '05:03'],
    ] as const;
    const outcome = (order: readonly (typeof counts)[number][], gone: readonly string[]) => {
      const n = baked();
      const ids = new Map(order.map(([code, load, pieces, time]) => [code as string, n.count(code, [n.loads[load]], pieces, time)]));
      for (const code of gone) n.withdraw(ids.get(code) ?? '');
      const left = counts.map(([code]) => code as string).filter((code) => ids.has(code) && !gone.includes(code));
      return left.map((code) => [code, ...n.said(ids.get(code) ?? '').map(([type, , what]) => [type, what])]);
    };
    fc.assert(
      fc.property(fc.shuffledSubarray([...counts]), fc.subarray(['A', 'B', 'C', 'D']), fc.integer(), (order, codes, turn) => {
        const gone = codes.filter((code) => order.some(([of]) => of === code));
        const other = [...order].sort((a, b) => ((a[2] * turn) % 7) - ((b[2] * turn) % 7));
        expect(outcome(order, gone)).toEqual(outcome(other, [...gone].reverse()));
      }),
      { numRuns: 60 },
    );
  });
});

describe('a code that was given before', () => {
  it('holds the later batch, whichever was recorded first, until it has its own', () => {
    for (const laterFirst of [false, true]) {
      const n = baked();
      const counts = [() => n.count('6329-KTR', [n.first], 10, '05:00'), () => n.count('6329-KTR', [n.second], 10, '05:05')] as const;
      const [early, late] = laterFirst ? [counts[1](), counts[0]()].reverse() : [counts[0](), counts[1]()];
      if (early === undefined || late === undefined) throw new Error('no batches');
      expect(n.said(early)).toEqual([]);
      expect(n.said(late)).toEqual([['code-given-twice', late, '6329-KTR, of 10 pieces counted out before']]);
      expect(n.refused(late).acceptable).toContain('a code of its own');
      n.release(early, '05:40');
      n.countOut(
        { code: '6329-KTR-2', loads: [n.second], pieces: 10 },
        { at: night('05:05'), corrects: late, words: { reason: 'given twice' } },
      );
      expect(n.said(late)).toEqual([]);
    }
  });

  it('may be the code of another product, or of another day', () => {
    const n = baked();
    n.count('6329', [n.first], 10);
    const other = n.countOut({ code: '6329', loads: [n.second], pieces: 10, bakedOn: '2026-11-26' }, { at: night('05:05') }).id;
    expect(n.types(other)).toEqual([]);
  });
});
