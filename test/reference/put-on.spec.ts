import { traceForward, type PutOn, type TraceFlow, type TraceLot } from '@bakehouse/graph';
import { surelyReached } from '@bakehouse/records';
import { describe, expect, it } from '@jest/globals';
import { after, before, flowOf, lotOf, weighed } from '../support/doubtful-graph.js';

const counted = (source: string, target: string, pieces: number, type: string): TraceFlow =>
  flowOf(`${source}>${target}`, source, target, pieces * 100_000, { pieces, type });

// Worked out by hand: 1,000 g of dough and 200 g of egg make 10 pieces of 120 g, of which 5 got 20 g of sugar.
describe('pieces that something was put on', () => {
  // 10 pieces scaled at 100 g from a dough of the suspect; 200 g of egg were put on all of them, and 20 g of sugar on 5 of them after the oven.
  const batch = { type: 'batch', mg: 500_000, pieces: 5, pieceMg: 100_000 };
  const run = { type: 'run', mg: 1_000_000, pieces: 10, pieceMg: 100_000 };
  const flows = [
    counted('dough', 'run', 10, 'divided'),
    flowOf('egg>run', 'egg', 'run', 200_000, { putOn: true }),
    { ...counted('run', 'batch', 5, 'batched'), at: weighed },
    flowOf('sugar>batch', 'sugar', 'batch', 20_000, { putOn: true }),
  ];
  const on = (minMg: number, maxMg: number | null): PutOn[] => [{ at: before, minMg, maxMg, gone: 0 }];
  const lots = (onRun: readonly PutOn[], onBatch: readonly PutOn[]): TraceLot[] => [
    lotOf('dough', { mg: 1_000_000 }),
    lotOf('egg', { mg: 200_000 }),
    lotOf('run', { ...run, putOn: onRun }),
    lotOf('batch', { ...batch, putOn: onBatch }),
  ];
  const known = lots(on(200_000, 200_000), on(120_000, 120_000));
  const mgOf = (suspect: string, of: readonly TraceFlow[], all: readonly TraceLot[]): (number | null | undefined)[] => {
    const found = traceForward({ flows: of, lots: new Map(all.map((l) => [l.id, l])) }, [suspect]).get('batch');
    return [found?.minMg, found?.maxMg];
  };
  it('hold all of the dough and their part of what was put on: 500 g and 100 g of 620 g', () => {
    expect(mgOf('dough', flows, known)).toEqual([500_000, 500_000]);
    expect(mgOf('egg', flows, known)).toEqual([100_000, 100_000]);
    expect(mgOf('sugar', flows, [...known, lotOf('sugar', { mg: 20_000 })])).toEqual([20_000, 20_000]);
  });
  it('hold all of the dough where nobody weighed what was put on, and of that at most their part of all that there was', () => {
    const unknown = lots(on(0, null), on(20_000, null));
    const unweighed = flows.map((f) => (f.source === 'egg' ? { ...f, mg: null } : f));
    expect(mgOf('dough', unweighed, unknown)).toEqual([500_000, 500_000]);
    expect(mgOf('egg', unweighed, unknown)).toEqual([0, 100_000]);
  });
  // By hand: 20 pieces of 100 g, of which 5 had left when 60 g of sugar were put on the other 15: 4 g on each of these, none on those.
  it('hold nothing surely of what was put on once they had left, and more of it where fewer were left to share it', () => {
    const sugared: PutOn = { at: weighed, minMg: 60_000, maxMg: 60_000, gone: 5 };
    const early = counted('batch', 'early', 5, 'ingredient');
    const late = { ...counted('batch', 'late', 5, 'ingredient'), at: after };
    const of = [{ ...flowOf('sugar>batch', 'sugar', 'batch', 60_000, { putOn: true }), at: weighed }, early, late].map((f) =>
      f.pieces === null ? f : { ...f, mg: null },
    );
    const all = [
      lotOf('sugar', { mg: 60_000 }),
      lotOf('batch', { type: 'batch', mg: 2_000_000, pieces: 20, pieceMg: 100_000, putOn: [sugared] }),
      lotOf('early'),
      lotOf('late'),
    ];
    const inDough = counted('dough', 'batch', 20, 'divided');
    const graph = { flows: [inDough, ...of], lots: new Map([lotOf('dough'), ...all].map((l) => [l.id, l])) };
    const held = traceForward(graph, ['sugar']);
    const mg = (lot: string): unknown[] => [held.get(lot)?.minMg, held.get(lot)?.maxMg];
    expect(mg('batch')).toEqual([60_000, 60_000]);
    expect(mg('early')[0]).toBe(0);
    expect(mg('late')).toEqual([15_000, 20_000]);
    // Where nobody counted how many had left, the five may be all that were there.
    const lots = new Map(graph.lots).set(
      'batch',
      lotOf('batch', { type: 'batch', mg: 2_000_000, pieces: 20, pieceMg: 100_000, putOn: [{ ...sugared, gone: null }] }),
    );
    expect(traceForward({ ...graph, lots }, ['sugar']).get('late')?.maxMg).toBeGreaterThanOrEqual(60_000);
    const surely = surelyReached(['sugar'], graph.flows, () => null);
    expect([...surely.keys()].sort()).toEqual(['batch', 'late', 'sugar']);
  });
});
