import { describe, expect, it } from '@jest/globals';
import { placeOutOfUse } from './place-out-of-use.js';
import { House, testId } from '../../../../test/support/try-kind.js';

const place = testId(0x21);
const house = (): House =>
  new House([{ in: 'place', id: place, row: { name: 'Mixer 2', type: 'mixer', within: null, since: '2026-01-01T00:00:00.000Z' } }]);

describe('place-out-of-use', () => {
  it('takes a place out of use once', () => {
    const h = house();
    const out = h.recorded(placeOutOfUse, { payload: { place } });
    expect(out.rows).toEqual([{ in: 'placeOut', id: out.id, row: { place, at: '2026-11-25T04:40:00.000Z' } }]);
    expect(h.record(placeOutOfUse, { payload: { place } })).toMatchObject({ problem: 'already-so', field: 'payload.place' });
    expect(h.record(placeOutOfUse, { payload: { place }, at: '2026-11-24T20:00:00Z', replaces: out }).ok).toBe(true);
  });

  it('is refused for a place that nobody knows', () => {
    expect(house().record(placeOutOfUse, { payload: { place: testId(99) } })).toMatchObject({
      problem: 'unknown-place',
      field: 'payload.place',
    });
  });
});
