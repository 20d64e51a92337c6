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
  putOn: [],
  outMg: null,
  outAt: null,
  lostMg: null,
  evaporatedMg: null,
  awayMg: 0,
  leftMg: null,
  leftAt: null,
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

describe('baked pieces', () => {
  // 10 pieces scaled at 100 g from a dough of 600 g of the suspect and 400 g of water. Baked, they weigh 880 g (12 % less), of which nobody made a note.
  // By hand, into a dough with 2,540 g of others: 600 of 880 + 2,540 g, which is 17.54 %.
  const dough = [flow('S', 'dough', 600), flow('water', 'dough', 400), pieces('dough', 'batch', 10, { mg: 1_000_000, type: 'batched' })];
  const batch = lot('batch', { type: 'batch', mg: 1_000_000, pieces: 10, pieceMg: 100_000 });
  it('hold all of the suspect that was in their dough, and weigh less than it: 600 of 3,540 g at least, 600 of 3,140 g at most', () => {
    // At most: they lost all that is not the suspect, 400 g; less than the suspect they cannot weigh.
    const flows = [...dough, pieces('batch', 'next', 10), flow('rye', 'next', 2540)];
    expect(share('next', flows, [batch])).toEqual([1695, 1911]);
  });
  it('weighed after baking hold more of it a gram than the dough: 528 of 3,420 g at least, 600 of 3,420 g at most', () => {
    // At least: nothing was lost, and 880 g hold 60 %. At most: the 880 g are the whole batch, with all of its 600 g.
    const flows = [...dough, flow('batch', 'next', 880), flow('rye', 'next', 2540)];
    expect(share('next', flows, [batch])).toEqual([1544, 1754]);
  });
  it('hold no more of it than the pieces that did not go elsewhere whole: 300 g in at most 5 pieces', () => {
    // 5 of 10 went into another dough, so that 440 g come of the other 5: at least 264 of 1,000 g, at most 300 of 1,000 g.
    const flows = [...dough, pieces('batch', 'other', 5), flow('batch', 'next', 440), flow('rye', 'next', 560)];
    expect(share('next', flows, [batch])).toEqual([2640, 3000]);
  });
  it('of which a part went in hold as much more as the whole may: at most all of what was weighed', () => {
    // 88 g may be one piece with its 60 g, or, had it all dried to the suspect, nothing but the suspect.
    const flows = [...dough, flow('batch', 'next', 88), flow('rye', 'next', 912)];
    expect(share('next', flows, [batch])).toEqual([528, 880]);
  });
  it('that were weighed hold exactly their part: 440 of 880 g take 300 g along', () => {
    const weighed = { ...batch, outMg: 880_000, outAt: later };
    const flows = [...dough, flow('batch', 'next', 440), flow('rye', 'next', 560), pieces('batch', 'third', 5), flow('rye', 'third', 560)];
    expect(share('next', flows, [weighed])).toEqual([3000, 3000]);
    expect(share('third', flows, [weighed])).toEqual([3000, 3000]);
  });
  it('that are not the suspect’s may weigh less as well, so that the suspect beside them is more', () => {
    // 200 g of the suspect with 4 clean pieces of 100 g: 200 of 600 g at least; what the pieces lost nobody knows.
    const clean = lot('clean', { type: 'batch', mg: 1_000_000, pieces: 10, pieceMg: 100_000 });
    const flows = [flow('S', 'next', 200), pieces('clean', 'next', 4), flow('rye', 'next', 400)];
    expect(share('next', flows, [clean])).toEqual([2000, 3333]);
  });
});

describe('a circle of records', () => {
  // Tub a: 1 g of the suspect and 9 g of flour; 5 g of it went into b and 5 g of b back into a. Nobody knows in which order.
  const circle = [flow('S', 'a', 1), flow('flour', 'a', 9), flow('a', 'b', 5), flow('b', 'a', 5)];
  it('has bounds: 1 g of 15 g at least; at most it went through b and came back, 2 g of 15 g', () => {
    expect(share('a', circle)).toEqual([667, 1333]);
  });
  it('gives no more along than ever came into it: 1 g of the 5 g that went into b, and 0.4 g of 2 g of those', () => {
    expect(share('b', circle)).toEqual([0, 2000]);
    expect(share('c', [...circle, flow('b', 'c', 2), flow('rye', 'c', 8)])).toEqual([0, 400]);
  });
  it('gives along what its clean part cannot fill: 5 g hold at least 2 g where only 3 g of flour came in', () => {
    expect(share('b', [flow('S', 'a', 7), flow('flour', 'a', 3), flow('a', 'b', 5), flow('b', 'a', 5)])).toEqual([4000, 10_000]);
  });
  it('is all of the suspect where nothing else came into it, weighed or not', () => {
    expect(share('c', [flow('S', 'a', null), flow('a', 'b', null), flow('b', 'a', 1), flow('b', 'c', 1)])).toEqual([10_000, 10_000]);
  });
  it('says nothing where something came in without a weight, and what is made of it can still be thinned', () => {
    const flows = [
      flow('S', 'a', null),
      flow('flour', 'a', 9),
      flow('a', 'b', 5),
      flow('b', 'a', 5),
      flow('b', 'c', 1),
      flow('rye', 'c', 9),
    ];
    expect(share('b', flows)).toEqual([null, null]);
    expect(share('c', flows)).toEqual([0, 1000]);
  });
  it('may be one lot that went into itself', () => {
    expect(share('a', [flow('S', 'a', 1), flow('flour', 'a', 9), flow('a', 'a', 5)])).toEqual([667, 1333]);
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
  it('was no more than what did not go elsewhere: 250 g of oil less the 150 g of another dough', () => {
    expect(share('dough', [...dough, oil, flow('oil', 'other', 150)], [lot('oil', { mg: 250_000 })])).toEqual([4545, 5000]);
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

describe('one of several lots of which there was not enough', () => {
  const either = { certain: false, anyOf: 'g' };
  // 300 g of the suspect or of b, of which there were 200 g: 100 g at least are the suspect, and all of it where there was enough.
  const flows = [flow('S', 'dough', 300, either), flow('b', 'dough', 300, either), flow('flour', 'dough', 700)];
  const of = (...lots: TraceLot[]) => share('dough', flows, lots);
  it('gives at least what the others could not: 100 of 1,000 g', () => {
    expect(of(lot('b', { mg: 200_000 }))).toEqual([1000, 3000]);
  });
  it('gives at most what it had itself: 250 of 1,000 g', () => {
    expect(of(lot('b', { mg: 200_000 }), lot('S', { mg: 250_000 }))).toEqual([1000, 2500]);
  });
  it('had less where some of it was used elsewhere, sent out, or there when it was counted', () => {
    const elsewhere = [...flows, flow('b', 'other', 50), flow('S', 'other', 1)];
    expect(share('dough', elsewhere, [lot('b', { mg: 200_000 })])).toEqual([1500, 3000]);
    expect(of(lot('b', { mg: 200_000, awayMg: 80_000 }))).toEqual([1800, 3000]);
    expect(of(lot('b', { mg: 200_000, leftMg: 150_000, leftAt: later }))).toEqual([2500, 3000]);
  });
  it('gives no more after a count than was there: 60 g of b', () => {
    expect(of(lot('b', { mg: 200_000, leftMg: 60_000, leftAt: '2026-11-23T03:00:00.000Z' }))).toEqual([2400, 3000]);
  });
  it('bounds nothing where more went than all of them had: then one of the figures is wrong', () => {
    expect(of(lot('b', { mg: 200_000 }), lot('S', { mg: 50_000 }))).toEqual([0, 3000]);
  });
  it('is counted in pieces where they weigh the same: of 30 pieces of A and B with 20 each, 10 at least are of A', () => {
    // 10 of A are 1,000 g of 3,000 + 7,000 g; 20 of A are 2,000 g.
    const counted = [pieces('S', 'crumb', 30, either), pieces('b', 'crumb', 30, either), flow('flour', 'crumb', 7000)];
    const twenty = { mg: 2_000_000, pieces: 20, pieceMg: 100_000 };
    expect(share('crumb', counted, [lot('S', twenty), lot('b', twenty)])).toEqual([1000, 2000]);
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
