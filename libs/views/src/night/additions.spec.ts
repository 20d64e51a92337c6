import { describe, expect, it } from '@jest/globals';
import type { Snapshot } from '@bakehouse/records';
import { additionsAsked, notPutOn } from './additions.js';
import { lookupOf } from '../lookup/lookup.js';
import { materials, night, row } from '../../../../test/fixtures/bakehouse.js';
import { oneBatch } from '../../../../test/fixtures/one-batch.js';

/** The same house, whose formula puts oil into the tins. */
const oiled = (snapshot: Snapshot): Snapshot => ({
  ...snapshot,
  formulaVersion: snapshot.formulaVersion.map((v) => ({
    ...v,
    content: {
      ...v.content,
      products: v.content.products.map((p) => ({
        ...p,
        additions: [{ material: materials.tinOil, name: 'tin oil', mgPerPiece: null, after: 'before-oven' as const }],
      })),
    },
  })),
});
const asked = (n: ReturnType<typeof oneBatch>) =>
  additionsAsked(lookupOf(oiled(n.book.snapshot()), row('06:00'), 'Europe/London'), [n.run]).map((a) => a.name);
const put = (n: ReturnType<typeof oneBatch>, targetType: 'run' | 'batch', target: string, material: string) =>
  n.book.record(
    'added-on',
    { targetType, target, afterOven: false, lines: [{ material, lot: null, quantity: null, how: 'estimated' }] },
    { at: night('03:40') },
  );

describe('what the formula puts on a product', () => {
  it('is asked for until it is on record, on its run or on a batch of it', () => {
    const [n, other] = [oneBatch(), oneBatch()];
    expect(asked(n)).toEqual(['tin oil']);
    put(n, 'run', n.run, materials.egg);
    expect(asked(n)).toEqual(['tin oil']);
    put(n, 'run', n.run, materials.tinOil);
    expect(asked(n)).toEqual([]);
    put(other, 'batch', other.countOut().id, materials.tinOil);
    expect(asked(other)).toEqual([]);
  });

  it('is asked for no more once somebody said that it is not on it; of another product it still is', () => {
    const n = oneBatch();
    const say = (product: string) =>
      n.book.record(
        'one-off-changed',
        { make: n.make, material: materials.tinOil, instead: null },
        { at: night('03:40'), words: { change: notPutOn(product) } },
      );
    say('bloomer 400 g');
    expect(asked(n)).toEqual(['tin oil']);
    say('white tin 800 g');
    expect(asked(n)).toEqual([]);
  });

  it('is not asked for where the formula puts nothing on', () => {
    const n = oneBatch();
    expect(additionsAsked(lookupOf(n.book.snapshot(), row('06:00'), 'Europe/London'), [n.run])).toEqual([]);
  });
});
