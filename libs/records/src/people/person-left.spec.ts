import { describe, expect, it } from '@jest/globals';
import { personLeft } from './person-left.js';
import { House, testId } from '../../../../test/support/try-kind.js';

const person = testId(3);
const house = (): House => new House([{ in: 'person', id: person, row: { name: 'Ada', joinedAt: '2026-01-01T00:00:00.000Z' } }]);

describe('person-left', () => {
  it('records who left and when', () => {
    const left = house().recorded(personLeft, { payload: { person } });
    expect(left.rows).toEqual([{ in: 'personLeft', id: left.id, row: { person, at: '2026-11-25T04:40:00.000Z' } }]);
  });

  it('is a fact: told twice, it is recorded twice', () => {
    const h = house();
    h.recorded(personLeft, { payload: { person } });
    expect(h.record(personLeft, { payload: { person } }).ok).toBe(true);
  });

  it('is refused for somebody who is not known', () => {
    expect(house().record(personLeft, { payload: { person: testId(99) } })).toMatchObject({
      problem: 'unknown-person',
      field: 'payload.person',
    });
  });
});
