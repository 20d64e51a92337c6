import { describe, expect, it } from '@jest/globals';
import { night } from '../../../../test/fixtures/bakehouse.js';
import { uuid } from '../../../../test/fixtures/driver.js';
import { oneBatch } from '../../../../test/fixtures/one-batch.js';
import { leftThere, surelyElsewhere, workingSetOf } from '../index.js';

const shop = uuid(0xff1);
const at = '2026-11-25T09:00:00.000Z';
const pieces = (n: number) => ({ figure: String(n), unit: 'piece' as const });

const inACase = { channel: 'waste', decided: 'amount', site: uuid(0xff2) } as const;

/** Two batches of ten, of which some went to a shop of the house that is a site of its own. */
function sent(lots: readonly ('a' | 'b')[], quantity: ReturnType<typeof pieces> | null, destroyed = 0) {
  const n = oneBatch();
  const of = { a: n.countOut({ pieces: 10, code: 'A' }).id, b: n.countOut({ pieces: 10, code: 'B' }).id };
  const line = { lots: lots.map((name) => of[name]), quantity, how: 'counted' as const };
  n.book.record('sent-out', { channel: 'own-shop', customer: null, unattended: false, until: null, lines: [line] }, { at: night('06:00') });
  const snapshot = n.book.snapshot();
  // as a recall case does, wherever they stood
  const decided = (snapshot.departure ?? []).map((d) => ({ ...d, id: uuid(0xde1), ...inACase, pieces: destroyed }));
  const state = workingSetOf(destroyed === 0 ? snapshot : { ...snapshot, departure: [...(snapshot.departure ?? []), ...decided] });
  const bakehouse = n.book.all('departure')[0]?.site ?? '';
  const bySite = (lot: 'a' | 'b') =>
    [bakehouse, shop].map((site) => [leftThere(state, of[lot], site, at).amount, surelyElsewhere(state, of[lot], site, at)]);
  return { at: bySite, whole: (lot: 'a' | 'b') => leftThere(state, of[lot], null, at) };
}

describe('how much of a lot is at a site', () => {
  it('is each site’s own part, and none of it is where every piece is recorded to be at the other', () => {
    expect(sent(['a'], pieces(4)).at('a')).toEqual([
      [6, false],
      [4, false],
    ]);
    const all = sent(['a'], pieces(10));
    expect(all.at('a')).toEqual([
      [0, true],
      [10, false],
    ]);
    expect(all.whole('a')).toEqual({ amount: 10, measure: 'pieces' });
  });

  it('may be at either where a case decided on some of it: nobody said where that stood', () => {
    const left = sent(['a'], pieces(6), 4);
    expect(left.whole('a').amount).toBe(6);
    expect(left.at('a')).toEqual([
      [null, false],
      [null, false],
    ]);
    // all ten gone by then
    expect(sent(['a'], pieces(6), 10).at('a')).toEqual([
      [0, true],
      [0, true],
    ]);
  });

  it('is not known at either where nobody counted what went, or where it may have been another lot', () => {
    const unknown = [
      [null, false],
      [null, false],
    ];
    expect(sent(['a'], null).at('a')).toEqual(unknown);
    const either = sent(['a', 'b'], pieces(10));
    expect([either.at('a'), either.at('b')]).toEqual([unknown, unknown]);
  });
});
