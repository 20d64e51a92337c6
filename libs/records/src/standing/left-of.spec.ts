import { describe, expect, it } from '@jest/globals';
import { leftOf, movementsUntil, type Moved } from './left-of.js';

const moved = (at: string, mg: number | null): Moved => ({ id: at, at, mg, pieces: null });
const none = { into: [], back: [], out: [], counts: [] };

describe('what is left of a lot', () => {
  it.each<[string, number | null, Parameters<typeof leftOf>[1], number | null]>([
    ['what was received, less what was used', 25_000, { ...none, out: [moved('1', 8_600)] }, 16_400],
    ['less than nothing, which is a finding', 25_000, { ...none, out: [moved('1', 25_300)] }, -300],
    ['not known where a use was not weighed', 25_000, { ...none, out: [moved('1', null)] }, null],
    ['not known where the papers never said', null, none, null],
    [
      'what went into a vessel, less what was taken',
      null,
      { ...none, into: [moved('1', 420), moved('1', 2_180)], out: [moved('2', 2_180)] },
      420,
    ],
    [
      'from the last count on',
      25_000,
      { ...none, out: [moved('1', null), moved('5', 500)], counts: [moved('2', 9_000), moved('4', 5_360)] },
      4_860,
    ],
    [
      'from a count, with what came into it since',
      25_000,
      { ...none, into: [moved('1', 7), moved('5', 40)], counts: [moved('4', 100)] },
      140,
    ],
    [
      'what was received, less what was sent, with what came back',
      25_000,
      { ...none, out: [moved('1', 9_000)], back: [moved('2', 2_000)] },
      18_000,
    ],
    ['from a count, with what came back since', 25_000, { ...none, back: [moved('1', 7), moved('5', 40)], counts: [moved('4', 100)] }, 140],
    ['what was stated, whatever went into it before', 25_000, { ...none, into: [moved('1', 7)] }, 25_000],
  ])('%s', (_case, stated, movements, left) => {
    expect(leftOf(stated, movements, 'mg')).toBe(left);
  });

  it('counts what came back to it, and nothing that lies ahead', () => {
    const back = (at: string, disposition: string) => ({ ...moved(at, 10), disposition });
    const rows = {
      into: [moved('1', 1)],
      out: [moved('9', 5)],
      departures: [moved('2', 3)],
      returned: [back('2', 'on-hand'), back('2', 'waste')],
      counts: [moved('9', 0)],
    };
    expect(leftOf(null, movementsUntil(rows, '5'), 'mg')).toBe(1 + 10 - 3);
  });
});
