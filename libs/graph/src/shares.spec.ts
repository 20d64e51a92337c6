import { describe, expect, it } from '@jest/globals';
import { traceForward } from './forward.js';
import type { TraceFlow, TraceLot } from './graph.js';
import { whole } from './share.js';

const at = '2026-11-23T04:00:00.000Z';
const later = '2026-11-23T06:00:00.000Z';
const flow = (source: string, target: string, grams: number | null, more: Partial<TraceFlow> = {}): TraceFlow => ({
  id: `${source}>${target}`,
  source,
  target,
  mg: grams === null ? null : grams * 1000,
  pieces: null,
  how: 'weighed',
  type: 'ingredient',
  certain: true,
  anyOf: null,
  at,
  ...more,
});
const lot = (id: string, more: Partial<TraceLot> = {}): TraceLot => ({
  id,
  name: id,
  type: 'made',
  code: null,
  book: 'site',
  material: id,
  mg: null,
  pieces: null,
  pieceMg: null,
  outMg: null,
  outAt: null,
  lostMg: null,
  evaporatedMg: null,
  at,
  ...more,
});
const pieces = (source: string, target: string, n: number, more: Partial<TraceFlow> = {}): TraceFlow =>
  flow(source, target, null, { pieces: n, how: 'counted', ...more });
/** At least and at most, in ten-thousandths. */
const share = (id: string, flows: readonly TraceFlow[], lots: readonly TraceLot[] = []): (number | null)[] => {
  const r = traceForward({ flows, lots: new Map(lots.map((l) => [l.id, l])) }, ['S']).get(id);
  if (!r) throw new Error(`${id} was not reached`);
  return [r.min, r.max].map((end) => (end === null ? null : Number((end * 10_000n + whole / 2n) / whole)));
};

describe('pieces', () => {
  it('become mass by what one of them weighs: crumb of a 910 g tin and a 75 g suspect bap holds 7.6 %', () => {
    const lots = [lot('S', { pieceMg: 75_000 }), lot('tin', { pieceMg: 910_000 })];
    expect(share('crumb', [pieces('S', 'crumb', 1), pieces('tin', 'crumb', 1)], lots)).toEqual([761, 761]);
  });
  it('are added to what was weighed', () => {
    expect(share('dough', [pieces('S', 'dough', 4), flow('flour', 'dough', 700)], [lot('S', { pieceMg: 75_000 })])).toEqual([3000, 3000]);
  });
  it('of different products with no weight on record say no share, and are reached', () => {
    expect(share('crumb', [pieces('S', 'crumb', 1), pieces('tin', 'crumb', 1)])).toEqual([null, null]);
  });
  it('of one material may be added: 30 and 20 eggs', () => {
    const lots = [lot('S', { material: 'egg' }), lot('others', { material: 'egg' })];
    expect(share('liquid egg', [pieces('S', 'liquid egg', 30), pieces('others', 'liquid egg', 20)], lots)).toEqual([6000, 6000]);
  });
});

describe('what came out', () => {
  const crumb = [flow('S', 'dry', 200), flow('tin', 'dry', 800)];
  it('is what a share is of: dried from 1,000 to 770 g it may hold 200 of 770', () => {
    expect(share('dry', crumb, [lot('dry', { outMg: 770_000, outAt: later })])[1]).toBe(2597);
  });
  it('keeps the suspect where the loss carried none of it', () => {
    expect(share('dry', crumb, [lot('dry', { outMg: 770_000, outAt: later, evaporatedMg: 230_000 })])).toEqual([2597, 2597]);
  });
  it('holds at least what the loss cannot have taken where nobody knows what was lost', () => {
    expect(share('dry', crumb, [lot('dry', { outMg: 900_000, outAt: later })])).toEqual([1111, 2222]);
    expect(share('dry', crumb, [lot('dry', { outMg: 770_000, outAt: later })])[0]).toBe(0);
  });
  it('is never less than the suspect in it', () => {
    expect(share('dry', crumb, [lot('dry', { outMg: 100_000, outAt: later, evaporatedMg: 900_000 })])).toEqual([10_000, 10_000]);
  });
  it('may hold more of it where more came out than went in', () => {
    expect(share('dry', crumb, [lot('dry', { outMg: 1_250_000, outAt: later })])).toEqual([1600, 3600]);
  });
  it('is thinned by what was added after it was weighed', () => {
    const after = flow('glaze', 'dry', 230, { at: '2026-11-23T07:00:00.000Z', type: 'after-oven' });
    expect(share('dry', [...crumb, after], [lot('dry', { outMg: 770_000, outAt: later, evaporatedMg: 230_000 })])).toEqual([2000, 2000]);
  });
});

describe('a line that nobody weighed', () => {
  const dough = [flow('S', 'dough', 500), flow('flour', 'dough', 500)];
  const oil = flow('oil', 'dough', null, { type: 'aid' });
  it('leaves at most as the weighed lines say where it holds none itself, and at least unknown', () => {
    expect(share('dough', [...dough, oil])).toEqual([0, 5000]);
  });
  it('leaves at least where there was only so much of it', () => {
    expect(share('dough', [...dough, oil], [lot('oil', { mg: 250_000 })])).toEqual([4000, 5000]);
  });
  it('is not bounded by a lot of which more went than there was', () => {
    const overdrawn = flow('oil', 'other', 400);
    expect(share('dough', [...dough, oil, overdrawn], [lot('oil', { mg: 250_000 })])).toEqual([0, 5000]);
  });
  it('is what is missing where the total was weighed', () => {
    expect(share('dough', [...dough, oil], [lot('dough', { outMg: 1_250_000, outAt: later })])).toEqual([4000, 4000]);
  });
  it('may make it all of the suspect where it is the suspect, and says nothing where that is all that is known', () => {
    expect(share('dough', [flow('S', 'dough', null), flow('flour', 'dough', 500)], [lot('S', { mg: 500_000 })])).toEqual([0, 5000]);
    expect(share('dough', [flow('S', 'dough', null), flow('flour', 'dough', 500)])).toEqual([null, null]);
  });
  it('of a lot with no share to say can still be thinned', () => {
    const flows = [flow('S', 'dough', null), flow('flour', 'dough', 500), flow('dough', 'mix', 100), flow('rye', 'mix', 900)];
    expect(share('mix', flows)).toEqual([0, 1000]);
  });
});

describe('a contact', () => {
  it('has no mass: in scope as possible, with no bound, nor has what is made of it', () => {
    const contact = flow('a', 'next', null, { type: 'contact', certain: false });
    const flows = [flow('S', 'a', 1), contact, flow('x', 'next', 5), flow('next', 'further', 5)];
    expect(share('next', flows)).toEqual([null, null]);
    expect(share('further', flows)).toEqual([null, null]);
    expect(share('next', [...flows, flow('S', 'next', 5)])).toEqual([5000, 5000]);
  });
});

describe('one of several lots', () => {
  const either = { certain: false, anyOf: 'g' };
  it('is one amount: certain where all of them are suspect', () => {
    const flows = [flow('S', 'a', 10), flow('S', 'b', 10), flow('a', 'dough', 300, either), flow('b', 'dough', 300, either)];
    expect(share('dough', [...flows, flow('flour', 'dough', 700)])).toEqual([3000, 3000]);
  });
  it('is of the heaviest or the lightest where pieces were counted', () => {
    const flows = [pieces('S', 'dough', 1, either), pieces('tin', 'dough', 1, either), flow('flour', 'dough', 300)];
    expect(share('dough', flows, [lot('S', { pieceMg: 100_000 }), lot('tin', { pieceMg: 700_000 })])).toEqual([0, 7000]);
  });
});

describe('a flow that may not have happened', () => {
  it('thins nothing for sure', () => {
    expect(share('dough', [flow('S', 'dough', 500), flow('x', 'dough', 500, { certain: false })])).toEqual([5000, 10_000]);
  });
});

describe('how much of the suspect a lot holds', () => {
  const held = (id: string, flows: readonly TraceFlow[], lots: readonly TraceLot[] = []): unknown[] => {
    const r = traceForward({ flows, lots: new Map(lots.map((l) => [l.id, l])) }, ['S']).get(id);
    return [r?.minMg, r?.maxMg];
  };
  it('can be said though its share cannot: 500 g went into a dough of which nobody knows the rest', () => {
    expect(held('dough', [flow('S', 'dough', 500), flow('flour', 'dough', null)])).toEqual([500_000, 500_000]);
  });
  it('is not more than came out, and has no upper end where nothing bounds it', () => {
    expect(held('dry', [flow('S', 'dry', 500), flow('tin', 'dry', 500)], [lot('dry', { outMg: 400_000, outAt: later })])).toEqual([
      0, 400_000,
    ]);
    expect(held('dough', [flow('S', 'dough', null), flow('flour', 'dough', 500)])).toEqual([0, null]);
  });
  it('is all of a suspect, and nothing is said after a contact alone or of pieces without a weight', () => {
    expect(held('S', [flow('S', 'dough', 500)], [lot('S', { mg: 700 })])).toEqual([700, 700]);
    expect(held('next', [flow('S', 'next', null, { type: 'contact', certain: false })])).toEqual([null, null]);
    expect(held('egg', [pieces('S', 'egg', 3), pieces('x', 'egg', 3)], [lot('S', { material: 'e' }), lot('x', { material: 'e' })])).toEqual(
      [null, null],
    );
  });
});
