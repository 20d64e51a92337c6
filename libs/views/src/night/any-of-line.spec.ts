import { describe, expect, it } from '@jest/globals';
import { nightView } from './night-view.js';
import { delivered, g, materials, night, row } from '../../../../test/fixtures/bakehouse.js';
import { uuid } from '../../../../test/fixtures/driver.js';
import { oneBatch } from '../../../../test/fixtures/one-batch.js';

describe('what went in of any of two sacks', () => {
  it('is one line, with the code of each, and adds up once', () => {
    const n = oneBatch({ weighed: false });
    const sacks = [uuid(0xe01), uuid(0xe02)] as const;
    const lines = sacks.map((lot) => delivered(lot, materials.flour));
    n.book.record('delivery-received', { supplier: null, noteNumber: null, photo: null, unattended: false, lines }, { at: night('01:00') });
    const any = {
      material: materials.flour,
      lot: sacks[0],
      orLots: [sacks[1]],
      quantity: g('12'),
      how: 'weighed',
      type: 'ingredient',
    } as const;
    n.book.record('weighed-in', { make: n.make, lines: [{ ...any, orLots: [...any.orLots] }] }, { at: night('02:35') });
    const make = nightView(n.book.snapshot(), { bakeDay: '2026-11-25', at: row('03:00'), zone: 'Europe/London' }).makes[0];
    expect(make?.lines.map((l) => [l.mg, l.code.code, l.orCodes.map((c) => c.code)])).toEqual([[12_000, '0e01', ['0e02']]]);
    expect(make?.inMg).toBe(12_000);
  });
});
