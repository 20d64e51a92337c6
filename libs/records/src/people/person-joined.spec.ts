import { describe, expect, it } from '@jest/globals';
import { personJoined } from './person-joined.js';
import { House } from '../../../../test/support/try-kind.js';

describe('person-joined', () => {
  it('makes a person of the entry’s own id, with the name as a word', () => {
    const house = new House();
    const joined = house.recorded(personJoined, { payload: {}, words: { name: 'Ada' }, at: '2026-11-25T05:10:00+01:00' });
    expect(house.row('person', joined.id)).toEqual({ id: joined.id, name: 'Ada', joinedAt: '2026-11-25T04:10:00.000Z' });
  });

  it.each([[{}], [{ name: ' ' }]])('is refused without a name: %j', (words) => {
    expect(new House().record(personJoined, { payload: {}, words })).toMatchObject({
      ok: false,
      problem: 'malformed',
      field: 'words.name',
    });
  });

  it('a correction replaces the name and keeps the person', () => {
    const house = new House();
    const joined = house.recorded(personJoined, { payload: {}, words: { name: 'Adda' } });
    house.recorded(personJoined, { payload: {}, words: { name: 'Ada' }, replaces: joined });
    expect(house.row('person', joined.id)?.name).toBe('Ada');
  });
});
