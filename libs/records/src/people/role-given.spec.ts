import { describe, expect, it } from '@jest/globals';
import type { PayloadFor } from '../kinds.js';
import { roleGiven } from './role-given.js';
import { House, testId } from '../../../../test/support/try-kind.js';

const person = testId(3);
const gone = testId(4);
const house = (): House =>
  new House([
    { in: 'person', id: person, row: { name: 'Ada', joinedAt: '2026-01-01T00:00:00.000Z' } },
    { in: 'person', id: gone, row: { name: 'Bo', joinedAt: '2026-01-01T00:00:00.000Z' } },
    { in: 'personLeft', id: testId(5), row: { person: gone, at: '2026-11-20T00:00:00.000Z' } },
  ]);
const payload: PayloadFor<'role-given'> = { person, role: 'baker', site: null, until: null };

describe('role-given', () => {
  it('gives a role at a site until an instant, kept in UTC', () => {
    const given = house().recorded(roleGiven, { payload: { ...payload, site: testId(2), until: '2026-12-24T18:00:00+01:00' } });
    expect(given.rows).toEqual([
      {
        in: 'roleGiven',
        id: given.id,
        row: {
          person,
          role: 'baker',
          site: testId(2),
          since: '2026-11-25T04:40:00.000Z',
          until: '2026-12-24T17:00:00.000Z',
        },
      },
    ]);
  });

  it.each([
    ['nobody known', { ...payload, person: testId(99) }, 'unknown-person', 'payload.person'],
    ['somebody who left', { ...payload, person: gone }, 'unknown-person', 'payload.person'],
    ['an end before the beginning', { ...payload, until: '2026-11-25T04:40:00Z' }, 'unacceptable-value', 'payload.until'],
    ['an inspector, who is given access instead', { ...payload, role: 'inspector' }, 'malformed', 'payload.role'],
  ])('is refused for %s', (_what, refused, problem, field) => {
    expect(house().recordRaw(roleGiven, { payload: refused })).toMatchObject({ problem, field });
  });

  it('somebody who left later could still be given a role before', () => {
    expect(house().record(roleGiven, { payload: { ...payload, person: gone }, at: '2026-11-19T23:59:59Z' }).ok).toBe(true);
  });
});
