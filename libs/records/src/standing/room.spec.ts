import { describe, expect, it } from '@jest/globals';
import { workingSetOf } from '../base/snapshot.js';
import { g, materials, night, places } from '../../../../test/fixtures/bakehouse.js';
import { lot, withFlour } from '../../../../test/fixtures/with-flour.js';
import type { Movements } from './left-of.js';
import type { Moved } from './places.js';
import { roomAt, roomsAmong, roomsIn } from './room.js';

const moved = (at: string, mg: number | null): Moved => ({ id: at, at, mg, pieces: null });
const none = { into: [], back: [], out: [], counts: [] };
const shop = { back: [moved('2', 4_000)], out: [moved('3', 1_000)], counts: [], hasSite: true };

/** Worked out by hand: what there was, less what went elsewhere or was still there. */
describe('how much of a lot one use of it at 5 may have been', () => {
  it.each<[string, number | null, Movements, number | null]>([
    [
      'what was received, less what went elsewhere before and after',
      25_000,
      { ...none, out: [moved('1', 8_000), moved('9', 7_000)] },
      10_000,
    ],
    ['as much, where something went elsewhere without an amount', 25_000, { ...none, out: [moved('1', 8_000), moved('2', null)] }, 17_000],
    ['with what came back', 25_000, { ...none, out: [moved('1', 25_000)], back: [moved('2', 2_000)] }, 2_000],
    ['not bounded where nobody knows how much came back', 25_000, { ...none, back: [moved('2', null)] }, null],
    ['not bounded where the papers never said', null, none, null],
    ['not bounded where one line into it was not weighed', null, { ...none, into: [moved('1', 700), moved('2', null)] }, null],
    ['not bounded where more went than there was', 25_000, { ...none, out: [moved('1', 26_000)] }, null],
    ['less what was still there at a later count', 25_000, { ...none, out: [moved('1', 8_000)], counts: [moved('7', 15_000)] }, 2_000],
    ['whatever went after a later count', 25_000, { ...none, out: [moved('8', 8_000)], counts: [moved('7', 15_000)] }, 10_000],
    [
      'what an earlier count found, less what went since',
      25_000,
      { ...none, out: [moved('1', 8_000), moved('6', 500)], counts: [moved('4', 900)] },
      400,
    ],
    [
      'with what came into it since that count',
      null,
      { ...none, into: [moved('1', 9_000), moved('5', 50)], counts: [moved('4', 900)] },
      950,
    ],
    ['what was not sold in the own shop, which is the house', 25_000, { ...none, out: [moved('2', 4_000)], shop }, 24_000],
    [
      'whatever was counted beside a shop: some may stand in the other',
      25_000,
      { ...none, out: [moved('2', 4_000)], counts: [moved('7', 20_000)], shop },
      24_000,
    ],
  ])('is %s', (_case, stated, movements, room) => {
    expect(roomAt(roomsAmong(stated, movements, 'mg'), '5')).toBe(room);
  });

  it('is not bounded for what turned out to be another lot, nor where its record was withdrawn', () => {
    const n = withFlour();
    n.weigh([n.line({ lot: null })]);
    const unnamed = n.book.all('lot').find((l) => l.type === 'placeholder')?.id ?? '';
    const use = (source: string) => ({ source, target: n.make, certain: false, anyOf: 'g', mg: 100, pieces: null, at: night('02:10') });
    const room = (source: string) => roomsIn(workingSetOf(n.book.snapshot()))(use(source), 'mg');
    expect([room(lot), room(unnamed)]).toEqual([25_000_000, null]);
    n.book.record('lot-identified', { lot: unnamed, code: null, same: lot, delivery: null }, { at: night('03:00') });
    expect([room(lot), room(unnamed)]).toEqual([23_000_000, null]);
  });

  it('counts nothing that was taken of a vessel by its name when something newer was in it', () => {
    const n = withFlour();
    const fill = (kept: string | null, grams: string, time: string) =>
      n.book.record(
        'vessel-topped-up',
        {
          vessel: places.tub,
          material: materials.flour,
          kept: kept === null ? null : g(kept),
          keptHow: 'weighed',
          added: [{ material: materials.flour, lot, quantity: g(grams), how: 'weighed' }],
        },
        { at: night(time) },
      ).id;
    const first = fill(null, '1000', '01:30');
    n.weigh([n.line({ lot: first, quantity: g('400') })], { at: night('02:05') });
    n.weigh([n.line({ lot: first, quantity: g('500') })], { at: night('02:30') });
    const use = { source: first, target: n.make, certain: false, anyOf: 'g', mg: 1, pieces: null, at: night('02:30') };
    const room = () => roomsIn(workingSetOf(n.book.snapshot()))(use, 'mg');
    expect(room()).toBe(100_000);
    fill('300', '700', '02:20');
    expect(room()).toBe(300_000);
  });
});
