import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { beginCommand } from '../../apps/api/src/begin.command.js';
import { readConfig } from '../../apps/api/src/platform/config/index.js';
import { connected } from '../../apps/api/src/platform/database/index.js';
import { uuidv7 } from '../../apps/api/src/platform/ids/index.js';
import request from 'supertest';
import { startTestApp, type TestApp } from '../support/app.js';
import { entry } from '../support/entries.js';
import { signOn } from '../support/people.js';

describe('a house that begins with nothing', () => {
  let t: TestApp;
  beforeAll(async () => {
    t = await startTestApp();
  });
  afterAll(() => t.close());

  const begin = async (...words: string[]): Promise<{ code: number; said: string }> => {
    const said: string[] = [];
    const code = await beginCommand(t.database, { config: readConfig({}), words, say: (line) => said.push(line) }, t.clock);
    return { code, said: said.join('\n') };
  };

  it.each([
    [['A house', 'Site', 'Europe/London'], 'Say who you are'],
    [['A house', ' ', 'Europe/London', 'Ada'], 'Say who you are'],
    [['A house', 'Site', 'Middle/Earth', 'Ada'], '"Middle/Earth" is no time zone'],
    [['A house', 'Site', 'Europe/London', 'Ada', 'Bea'], 'Say who you are'],
  ])('%j: says what is missing, and makes nothing', async (words, said) => {
    expect(await begin(...words)).toEqual({ code: 2, said: expect.stringContaining(said) });
    const made = await connected(t.database.ownerUrl, (owner) => owner.query('SELECT FROM organisation'));
    expect(made.rowCount).toBe(0);
  });

  it('is one site and one administrator, who chooses a PIN in place of the printed one and lets others in', async () => {
    const { code, said } = await begin('Test House', 'Mill Lane', 'Europe/London', 'Ada Min');
    expect(code).toBe(0);
    const pin = /PIN (\d{6})/.exec(said)?.[1] ?? '';
    const house = /\?house=([0-9a-f-]{36})$/m.exec(said)?.[1] ?? '';
    expect((await request(t.server).get(`/api/v1/sign-on/people?organisation=${house}`).expect(200)).body.organisation).toEqual({
      id: house,
      name: 'Test House',
    });
    const { rows } = await connected(t.database.ownerUrl, (owner) =>
      owner.query<{ organisation: string; person: string }>('SELECT organisation, id AS person FROM person'),
    );
    expect(rows).toHaveLength(1);
    const { organisation, person } = rows[0] ?? { organisation: '', person: '' };
    const withPin = request(t.server).post('/api/v1/sign-on').send({ organisation, person, pin });
    expect((await withPin.expect(403)).body.type).toMatch(/pin-not-own$/);
    await request(t.server).post('/api/v1/sign-on/own-pin').send({ organisation, person, pin, newPin: '640277' }).expect(200);
    const ada = await signOn(t, organisation, person, '640277');
    const { body: people } = await ada.get('/people').expect(200);
    expect(people).toEqual([expect.objectContaining({ name: 'Ada Min', roles: [expect.objectContaining({ role: 'administrator' })] })]);
    const joined = uuidv7(t.clock.now());
    const joins = entry('person-joined', {}, { id: joined, at: t.clock.now().toISOString(), words: { name: 'Bea' } });
    const { body } = await ada.post('/organisation/entries', [await ada.signed(joins)]).expect(200);
    expect(body).toEqual([expect.objectContaining({ as: 'recorded' })]);
  });

  it('is not begun twice by the same name', async () => {
    expect(await begin('Test House', 'Other', 'Europe/London', 'Ada Min')).toEqual({ code: 1, said: expect.stringContaining('already') });
  });
});
