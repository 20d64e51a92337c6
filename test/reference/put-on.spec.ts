import { traceForward, type PutOn, type TraceFlow, type TraceLot } from '@bakehouse/graph';
import { describe, expect, it } from '@jest/globals';
import { flowOf, lotOf } from '../support/doubtful-graph.js';

const counted = (source: string, target: string, pieces: number, type: string): TraceFlow =>
  flowOf(`${source}>${target}`, source, target, pieces * 100_000, { pieces, type });

// Worked out by hand: 1,000 g of dough and 200 g of egg make 10 pieces of 120 g, of which 5 got 20 g of sugar.
describe('pieces that something was put on', () => {
  // 10 pieces scaled at 100 g from a dough of the suspect; 200 g of egg were put on all of them, and 20 g of sugar on 5 of them after the oven.
  const batch = { type: 'batch', mg: 500_000, pieces: 5, pieceMg: 100_000 };
  const run = { type: 'run', mg: 1_000_000, pieces: 10, pieceMg: 100_000 };
  const flows = [
    counted('dough', 'run', 10, 'divided'),
    flowOf('egg>run', 'egg', 'run', 200_000),
    counted('run', 'batch', 5, 'batched'),
    flowOf('sugar>batch', 'sugar', 'batch', 20_000),
  ];
  const lots = (onRun: PutOn, onBatch: PutOn): TraceLot[] => [
    lotOf('dough', { mg: 1_000_000 }),
    lotOf('egg', { mg: 200_000 }),
    lotOf('run', { ...run, putOn: onRun }),
    lotOf('batch', { ...batch, putOn: onBatch }),
  ];
  const known = lots({ minMg: 200_000, maxMg: 200_000 }, { minMg: 120_000, maxMg: 120_000 });
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
    const unknown = lots({ minMg: 0, maxMg: null }, { minMg: 20_000, maxMg: null });
    const unweighed = flows.map((f) => (f.source === 'egg' ? { ...f, mg: null } : f));
    expect(mgOf('dough', unweighed, unknown)).toEqual([500_000, 500_000]);
    expect(mgOf('egg', unweighed, unknown)).toEqual([0, 100_000]);
  });
});
