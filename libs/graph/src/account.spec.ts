import { describe, expect, it } from '@jest/globals';
import { accountOf } from './account.js';

const at = '2026-11-25T10:00:00.000Z';
const out = (channel: string, pieces: number, more: object = {}) => ({
  channel,
  pieces,
  mg: null,
  how: 'counted',
  certain: true,
  at,
  ...more,
});

describe('a lot’s account', () => {
  it('counts a batch in pieces and takes what left after the count off it', () => {
    const b = accountOf({
      lot: { type: 'batch', mg: null, pieces: 100 },
      uses: [],
      departures: [out('counter', 40), out('dispatch', 20, { at: '2026-11-25T15:00:00.000Z' })],
      returned: [],
      count: { mg: null, pieces: 60, at: '2026-11-25T12:00:00.000Z' },
    });
    expect(b).toMatchObject({ measure: 'pieces', gone: 60, onHand: { amount: 40, by: 'count' }, unaccounted: 0 });
  });
  it('weighs an ingredient, and keeps what may have gone out of the sum', () => {
    const use = { mg: 3000, pieces: null, how: 'weighed', type: 'ingredient', certain: true, at };
    expect(
      accountOf({
        lot: { type: 'received', mg: 10_000, pieces: null },
        uses: [use, { ...use, certain: false }],
        departures: [],
        returned: [],
        count: { mg: 7000, pieces: null, at },
      }),
    ).toMatchObject({ measure: 'mg', gone: 3000, unaccounted: 0 });
  });
  it('takes back only what came back to the shelf', () => {
    const back = (disposition: string, when = at) => ({ mg: null, pieces: 5, disposition, at: when });
    expect(
      accountOf({
        lot: { type: 'batch', mg: null, pieces: 50 },
        uses: [],
        departures: [out('round', 30)],
        returned: [back('on-hand'), back('waste')],
        count: { mg: null, pieces: 25, at },
      }),
    ).toMatchObject({ gone: 25, unaccounted: 0 });
    const late = accountOf({
      lot: { type: 'batch', mg: null, pieces: 50 },
      uses: [],
      departures: [out('round', 30)],
      returned: [back('on-hand', '2026-11-25T15:00:00.000Z')],
      count: { mg: null, pieces: 20, at },
    });
    expect(late).toMatchObject({ gone: 25, onHand: { amount: 25, by: 'count' }, unaccounted: 0 });
  });
});
