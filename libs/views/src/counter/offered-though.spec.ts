import { describe, expect, it } from '@jest/globals';
import { offeredThough } from './offered-though.js';

const sites = [
  { id: 'mill', name: 'Mill Lane' },
  { id: 'steps', name: 'Harbour Steps' },
];
const since = '2026-11-28T06:50:00.000Z';
const lot = (id: string, shop: string | null, onCounter: readonly (readonly [string, number | null])[]) => ({
  ...{ lot: id, name: 'Bap', code: id },
  shelves: {
    inShop: shop === null ? null : { shop, amount: 8, measure: 'pieces' as const },
    onCounter: onCounter.map(([site, pieces]) => ({ site, siteName: site, since, pieces })),
  },
});
const seenAt = (site: string, ...onHold: ReturnType<typeof lot>[]) =>
  offeredThough({ onHold, site, sites }).map((h) => [h.lot, h.shop, h.pieces, h.since]);

describe('what a counter is told not to sell', () => {
  it('is what stands on it, with how many, and not what stands on the counter of another site', () => {
    const both = [lot('here', null, [['mill', 5]]), lot('there', null, [['steps', 3]])];
    expect(seenAt('mill', ...both)).toEqual([['here', null, 5, since]]);
    expect(seenAt('steps', ...both)).toEqual([['there', null, 3, since]]);
  });

  it('is not what was sent to a shop that is another site, and is at that site', () => {
    const sent = lot('sent', ' harbour steps', []);
    expect(seenAt('mill', sent)).toEqual([]);
    expect(seenAt('steps', sent)).toEqual([['sent', ' harbour steps', 8, null]]);
  });

  it('is everywhere what was sent to a shop that no site is called as, with its name', () => {
    const sent = lot('sent', 'The kiosk', []);
    for (const { id } of sites) expect(seenAt(id, sent)).toEqual([['sent', 'The kiosk', 8, null]]);
  });
});
