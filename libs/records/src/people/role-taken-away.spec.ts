import { describe, expect, it } from '@jest/globals';
import { roleTakenAway } from './role-taken-away.js';
import { House, testId } from '../../../../test/support/try-kind.js';

const given = testId(0x111);
const house = (): House =>
  new House([
    { in: 'roleGiven', id: given, row: { person: testId(3), role: 'baker', site: null, since: '2026-01-01T00:00:00.000Z', until: null } },
  ]);

describe('role-taken-away', () => {
  it('ends the role that it names, of the person who had it', () => {
    const taken = house().recorded(roleTakenAway, { payload: { given } });
    expect(taken.rows).toEqual([{ in: 'roleTaken', id: taken.id, row: { given, person: testId(3), at: '2026-11-25T04:40:00.000Z' } }]);
  });

  it('is refused for a role that was never given, and the second time', () => {
    const h = house();
    expect(h.record(roleTakenAway, { payload: { given: testId(99) } })).toMatchObject({
      problem: 'unknown-subject',
      field: 'payload.given',
    });
    h.recorded(roleTakenAway, { payload: { given } });
    expect(h.record(roleTakenAway, { payload: { given } })).toMatchObject({ problem: 'already-so', field: 'payload.given' });
  });

  it('a correction of its time is not a second time', () => {
    const h = house();
    const taken = h.recorded(roleTakenAway, { payload: { given } });
    h.recorded(roleTakenAway, { payload: { given }, at: '2026-11-25T04:00:00Z', replaces: taken });
    expect(h.row('roleTaken', taken.id)?.at).toBe('2026-11-25T04:00:00.000Z');
  });
});
