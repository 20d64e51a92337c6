import { describe, expect, it } from '@jest/globals';
import { accessEnded } from './access-ended.js';
import { House, testId } from '../../../../test/support/try-kind.js';

const [access, person] = [testId(0x151), testId(3)];
const house = (): House =>
  new House([
    {
      in: 'accessGiven',
      id: access,
      row: {
        person,
        sites: [testId(2)],
        from: '2026-10-26',
        until: null,
        expires: '2026-11-26T18:00:00.000Z',
        at: '2026-11-25T00:00:00.000Z',
      },
    },
  ]);

describe('access-ended', () => {
  it('ends an access once', () => {
    const h = house();
    const ended = h.recorded(accessEnded, { payload: { access } });
    expect(ended.rows).toEqual([{ in: 'accessEnded', id: ended.id, row: { access, person, at: '2026-11-25T04:40:00.000Z' } }]);
    expect(h.record(accessEnded, { payload: { access } })).toMatchObject({ problem: 'already-so', field: 'payload.access' });
    expect(h.record(accessEnded, { payload: { access }, replaces: ended }).ok).toBe(true);
  });

  it('is refused for an access that was never given', () => {
    expect(house().record(accessEnded, { payload: { access: testId(99) } })).toMatchObject({
      problem: 'unknown-subject',
      field: 'payload.access',
    });
  });
});
