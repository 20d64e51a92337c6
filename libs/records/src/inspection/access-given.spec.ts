import { describe, expect, it } from '@jest/globals';
import { accessGiven } from './access-given.js';
import { House, testId } from '../../../../test/support/try-kind.js';

const [person, gone, site] = [testId(3), testId(4), testId(2)];
const house = (): House =>
  new House([
    { in: 'person', id: person, row: { name: 'Inspector', joinedAt: '2026-01-01T00:00:00.000Z' } },
    { in: 'person', id: gone, row: { name: 'Gone', joinedAt: '2026-01-01T00:00:00.000Z' } },
    { in: 'personLeft', id: testId(5), row: { person: gone, at: '2026-11-20T00:00:00.000Z' } },
  ]);
const payload = { person, sites: [site], from: '2026-10-26', until: '2026-11-25', expires: '2026-11-25T18:00:00+00:00' };

describe('access-given', () => {
  it('lets somebody in at these sites, for these days, until it expires', () => {
    const given = house().recorded(accessGiven, { payload });
    expect(given.rows).toEqual([
      { in: 'accessGiven', id: given.id, row: { ...payload, expires: '2026-11-25T18:00:00.000Z', at: '2026-11-25T04:40:00.000Z' } },
    ]);
  });

  it.each([
    [{ person: testId(99) }, 'unknown-person', 'payload.person'],
    [{ person: gone }, 'unknown-person', 'payload.person'],
    [{ expires: '2026-11-25T04:40:00Z' }, 'unacceptable-value', 'payload.expires'],
    [{ expires: '2027-11-26T04:40:01Z' }, 'unacceptable-value', 'payload.expires'],
    [{ until: '2026-10-25' }, 'malformed', 'payload.until'],
    [{ sites: [] }, 'malformed', 'payload.sites'],
    [{ sites: [site, site] }, 'malformed', 'payload.sites'],
  ])('refuses %j', (change, problem, field) => {
    expect(house().record(accessGiven, { payload: { ...payload, ...change } })).toMatchObject({ problem, field });
  });

  it('a correction can shorten it', () => {
    const h = house();
    const given = h.recorded(accessGiven, { payload });
    h.recorded(accessGiven, { payload: { ...payload, expires: '2026-11-25T10:00:00Z' }, replaces: given });
    expect(h.row('accessGiven', given.id)?.expires).toBe('2026-11-25T10:00:00.000Z');
  });
});
