import { describe, expect, it } from '@jest/globals';
import { g, materials, night, places, plan, whiteVersion } from '../../../../test/fixtures/bakehouse.js';
import { uuid } from '../../../../test/fixtures/driver.js';
import { oneBatch } from '../../../../test/fixtures/one-batch.js';

/** Tins whose core nobody read went into a dough as crumb, and the tins of that into another. */
function chain() {
  const n = oneBatch();
  const first = n.countOut().id;
  const bakedOf = (lot: string, nth: number): { batch: string; loads: readonly string[] } => {
    const [run, hour] = [uuid(0xe70 + nth), `0${5 + nth}`];
    const begun = { formulaVersion: whiteVersion, station: places.mixer, plan, bakeDay: '2026-11-25', plannedMg: null };
    const make = n.book.record('make-begun', begun, { at: night(`${hour}:10`) }).id;
    const crumb = { material: materials.tin, lot, quantity: g('900'), how: 'weighed', type: 'rework' } as const;
    n.book.record('weighed-in', { make, lines: [...n.weighLines, crumb] }, { at: night(`${hour}:15`) });
    const runs = [{ run, product: materials.tin, heads: null, pieces: 10, scaling: g('910') }];
    n.book.record('divided', { make, quantity: null, oldDough: null, scrap: null, runs }, { at: night(`${hour}:20`) });
    const load = n.book.record('load-in', { ...n.loadPayload, lines: [{ run, pieces: 10 }] }, { at: night(`${hour}:25`) }).id;
    n.core(load, '97', `${hour}:50`);
    const counted = { ...n.counted, run, loads: [load], pieces: 10, code: `TIN-${nth}` };
    return { batch: n.book.record('batch-counted-out', counted, { at: night(`${hour}:55`) }).id, loads: [load] };
  };
  const second = bakedOf(first, 1);
  return { ...n, first, second, third: bakedOf(second.batch, 2) };
}

describe('a reading that must be taken', () => {
  it('and was not, of what was baked before, keeps what it went into again, to the end of the chain, until it is taken', () => {
    const c = chain();
    const one = 'a reading that must be taken was not taken before it was used: core temperature';
    const open = `${one}; ${one}`;
    for (const { batch } of [c.second, c.third]) {
      const { problem, acceptable = '' } = c.refused(batch, '08:00');
      expect([problem, acceptable]).toEqual(['not-releasable', `nothing open; there is: ${open}`]);
    }
    for (const load of c.loads) c.core(load, '95.1');
    c.release(c.third.batch, '08:10');
    expect(c.book.all('release').map((r) => r.batch)).toEqual([c.third.batch]);
  });

  it('is asked of each load once, though it is on more than one way', () => {
    const c = chain();
    const line = { material: materials.tin, lot: c.first, quantity: g('10'), how: 'weighed', type: 'rework' } as const;
    const make = c.book.get('batch', c.third.batch)?.make ?? '';
    c.book.record('weighed-in', { make, lines: [line] }, { at: night('07:16') });
    expect(c.refused(c.third.batch, '08:00').acceptable?.match(/was not taken/g)).toHaveLength(c.loads.length);
  });
});
