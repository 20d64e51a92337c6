import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { kindNamed } from '@bakehouse/records';
import request from 'supertest';
import { createApp } from '../../apps/api/src/app.js';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { readConfig } from '../../apps/api/src/platform/config/index.js';
import { connected } from '../../apps/api/src/platform/database/index.js';
import { uuidv7 } from '../../apps/api/src/platform/ids/index.js';
import { Purge } from '../../apps/api/src/platform/jobs/index.js';
import { ledgerCommand } from '../../apps/api/src/records.command.js';
import { purgeCommand } from '../../apps/api/src/purge.command.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { roomReading } from '../support/payloads.js';
import { House, signOn } from '../support/people.js';

const [minute, hour, day] = [60_000, 3_600_000, 86_400_000];
// long ago, so that the database's own clock, which keeps what is young, lets all of it go
const began = new Date('2019-06-01T04:00:00Z').getTime();
const clock = new SettableClock(new Date(began));
let t: TestApp;
let house: House;
const count = async (sql: string): Promise<number> =>
  connected(t.database.ownerUrl, async (owner) => (await owner.query(`SELECT count(*)::int AS n FROM ${sql}`)).rows[0]?.n);

beforeAll(async () => {
  t = await startTestApp({ clock });
  house = await House.found(t);
  const wrong = await house.join('Zoe Wrong', ['baker']);
  await request(t.server)
    .post('/api/v1/sign-on')
    .send({ organisation: house.organisation, person: wrong.person, pin: '111213' })
    .expect(401);
  const bo = await house.join('Bo Baker', ['baker']);
  await (await signOn(t, house.organisation, bo.person, bo.pin)).post('/sign-off').expect(204); // sends nothing and signs off
  const sender = await signOn(t, house.organisation, bo.person, bo.pin);
  const reading = (of: object = {}) => ({ ...house.entry({ kind: 'reading-taken', payload: roomReading(house.site, '21.5') }), ...of });
  const first = reading();
  const later = reading({ after: [first.id] });
  const send = (...entries: object[]) => sender.post(`/sites/${house.site}/entries`, entries).expect(200);
  await send(later, reading({ after: [uuidv7(clock.now())] })); // both wait, one of them for ever
  await send(first, later);
  await send({ ...first, payload: roomReading(house.site, '99') }); // another record under the id of the first
  const lead = await house.signedOn('Lee Dehl', ['food-safety-lead']);
  const [example] = kindNamed('plan-approved').examples;
  const signed = house.entry({ kind: 'plan-approved', payload: { ...example, series: uuidv7(clock.now()) } });
  await lead.post('/signatures', { pin: lead.pin, entry: signed }).expect(200);
  await house.administrator.post('/devices/enrolment-codes', { site: house.site, currentPin: house.administrator.pin }).expect(201);
  const inspector = await house.signedOn('Ina Spector', ['inspector']);
  await inspector.get(`/sites/${house.site}/inspection?from=2019-06-01&until=2019-06-01`).expect(200);
});
afterAll(() => t.close());

/** When what is past its age, counted from the beginning, and how many of it there are; in the order of time. */
const due: readonly (readonly [ms: number, gone: Readonly<Record<string, number>>])[] = [
  [day, { 'counts of wrong PINs': 3 }],
  [7 * day + 2 * minute, { 'signature tokens that were used or have expired': 11 }],
  [30 * day, { 'set-aside entries that were recorded since': 1 }],
  [30 * day + 10 * minute, { 'enrolment codes that were used or have expired': 1 }],
  [90 * day, { 'sessions that have ended': 1, 'places where somebody’s PIN was right': 4 }],
  [90 * day + 12 * hour, { 'sessions that have ended': 1 }], // nobody signed off
  [400 * day, { 'security events': 20 }],
  [732 * day, { 'set-aside entries that were never recorded': 2 }],
  [2196 * day, { 'inspectors’ viewings': 1, 'sessions that have ended': 1 }], // the inspector's own
];

const purged = async (at: number): Promise<Record<string, number>> => {
  clock.set(new Date(began + at));
  const went = await t.app.get(Purge, { strict: false }).run();
  return Object.fromEntries(went.filter((p) => p.count > 0).map((p) => [p.what, p.count]));
};

describe('the purge', () => {
  it.each(due)('after %d ms, and not one before, takes %j', async (ms, gone) => {
    expect(await purged(ms - 1)).toEqual({});
    expect(await purged(ms)).toEqual(gone);
  });

  it('leaves what entries rest on: they verify, and the sessions that sent them are there', async () => {
    expect(await purged(50 * 366 * day)).toEqual({});
    const said: string[] = [];
    expect(
      await ledgerCommand(t.database, {
        words: ['verify'],
        say: (line) => said.push(line),
        config: readConfig({}),
      }),
    ).toBe(0);
    expect(said.at(-1)).toBe('No faults found.');
    expect(await count('sending')).toBeGreaterThan(0);
    expect(await count('sending s WHERE NOT EXISTS (SELECT FROM session x WHERE x.id = s.session) AND s.session IS NOT NULL')).toBe(0);
    expect(await count('set_aside')).toBe(0);
  });

  it('takes nothing that is young, no matter who asks', async () => {
    const other = '00000000-0000-4000-8000-00000000000a';
    await connected(t.database.ownerUrl, async (owner) => {
      const viewing =
        'INSERT INTO viewing (organisation, id, at, person, session, what, address, exported) VALUES ($1, $2, now(), $2, $2, $3, $3, false)';
      const aside = `INSERT INTO set_aside (organisation, book, id, "as", person, received_at, body) VALUES ($1, $2, $2, 'waiting', $2, now(), '{}')`;
      await owner.query(viewing, [house.organisation, other, 'x']);
      await owner.query(aside, [house.organisation, other]);
      for (const table of ['viewing', 'set_aside']) await expect(owner.query(`DELETE FROM ${table}`)).rejects.toThrow(/append-only/);
    });
  });
});

describe('the purge is done', () => {
  const wrongOnce = async (): Promise<void> => {
    clock.set(new Date(began));
    const { person } = await house.join('Wes Wrong', ['baker']);
    await request(t.server).post('/api/v1/sign-on').send({ organisation: house.organisation, person, pin: '111213' }).expect(401);
    clock.advance({ hours: 48 });
  };
  const wrongOnes = (): Promise<number> => count('guess_count WHERE good_at IS NULL');

  it('at every start, and awaited when the service stops', async () => {
    await wrongOnce();
    expect(await wrongOnes()).toBeGreaterThan(0);
    const config = readConfig({ LOG_LEVEL: 'silent', DATABASE_POOL: '2', SEED_DEMO: 'no' });
    await (await createApp({ config, serviceUrl: t.database.serviceUrl, clock, webFolder: '/nowhere' })).close();
    expect(await wrongOnes()).toBe(0);
  });

  it('by a command, with the ages of the settings', async () => {
    await wrongOnce();
    const said: string[] = [];
    const run = (env: Record<string, string>) =>
      purgeCommand(t.database, { config: readConfig(env), say: (line) => said.push(line) }, clock);
    expect(await run({ KEEP_WRONG_GUESSES_DAYS: '3' })).toBe(0);
    expect(said).toContain('       0  counts of wrong PINs');
    expect(await run({})).toBe(0);
    expect(said).toContain('       3  counts of wrong PINs');
  });
});
