import { concernsOf, workingSetOf } from '@bakehouse/records';
import { describe, expect, it } from '@jest/globals';
import { lead, night } from '../../../../test/fixtures/bakehouse.js';
import { uuid } from '../../../../test/fixtures/driver.js';
import { oneBatch } from '../../../../test/fixtures/one-batch.js';

const [cafe, school] = [uuid(0xca1), uuid(0xca2)];
const named = { [cafe]: 'Café at the lock', [school]: 'School' };
const pieces = (n: number) => ({ figure: String(n), unit: 'piece' as const });
type Moves = readonly (readonly ['sent' | 'round' | 'waste' | 'back' | 'counter', string | null, number])[];

/** A batch of 20; what moved of it, and what its sums say. */
function saidAfter(moves: Moves): string[] {
  const n = oneBatch();
  n.loads.forEach((l) => n.core(l, '95.1'));
  const lot = n.countOut().id;
  for (const [party, name] of Object.entries(named))
    n.book.record(
      'party-accepted',
      { party, type: 'customer', vulnerable: false, unattended: false },
      { at: night('00:01'), person: lead, words: { name } },
    );
  moves.forEach(([what, customer, count], i) => {
    const time = { at: night(`06:0${i}`) };
    if (what === 'counter') n.book.record('put-on-counter', { lot, way: 'on', pieces: count }, time);
    else if (what === 'back')
      n.book.record(
        'goods-returned',
        { lot, departure: null, customer, quantity: pieces(count), how: 'counted', disposition: 'on-hand' },
        time,
      );
    else {
      const channel = what === 'sent' ? 'dispatch' : what;
      const lines = [{ lots: [lot], quantity: pieces(count), how: 'counted' as const }];
      n.book.record('sent-out', { channel, customer, unattended: false, until: null, lines }, time);
    }
  });
  const state = workingSetOf(n.book.snapshot());
  return (concernsOf(state, [lot]).get(lot) ?? []).map((r) => r.concern.type);
}

describe('more came back than was sent', () => {
  it.each<[string, boolean, Moves]>([
    [
      'not where all of it came back',
      false,
      [
        ['sent', cafe, 5],
        ['back', cafe, 5],
      ],
    ],
    [
      'where one more came back',
      true,
      [
        ['sent', cafe, 5],
        ['back', cafe, 6],
      ],
    ],
    [
      'where it came back from somebody who never had any',
      true,
      [
        ['sent', cafe, 5],
        ['back', school, 1],
      ],
    ],
    [
      'not where they may have bought it on the round',
      false,
      [
        ['round', null, 5],
        ['back', school, 5],
      ],
    ],
    [
      'where more came back than the round can have sold them',
      true,
      [
        ['round', null, 5],
        ['back', school, 6],
      ],
    ],
    [
      'not where nobody said from whom, and the café had as much',
      false,
      [
        ['sent', cafe, 5],
        ['back', null, 5],
      ],
    ],
    [
      'where nobody said from whom, and more than anybody had',
      true,
      [
        ['sent', cafe, 5],
        ['back', null, 6],
      ],
    ],
    [
      'where it was thrown away: that does not come back',
      true,
      [
        ['waste', null, 5],
        ['back', null, 1],
      ],
    ],
    [
      'not where it stood on a counter',
      false,
      [
        ['counter', null, 5],
        ['back', null, 2],
        ['back', school, 1],
      ],
    ],
    ['where nothing left at all', true, [['back', null, 1]]],
  ])('%s: %s', (_case, is, moves) => {
    expect(saidAfter(moves).includes('more-back-than-sent')).toBe(is);
  });
});
