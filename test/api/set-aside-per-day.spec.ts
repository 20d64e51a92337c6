import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { QueryResultRow } from 'pg';
import { setAsideLimits } from '../../apps/api/src/platform/ledger/set-aside.js';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { connected } from '../../apps/api/src/platform/database/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { enrolledTablet, House, type Caller } from '../support/people.js';
import { roomReading } from '../support/payloads.js';

const clock = new SettableClock('2026-11-25T03:40:00Z');
let t: TestApp;
let house: House;
let person: { person: string; pin: string };
beforeAll(async () => {
  t = await startTestApp({ clock, env: { PIN_IDLE_MINUTES: '1440', SESSION_MINUTES: '1440' } });
  house = await House.found(t);
  person = await house.join('Bo Baker', ['baker']);
});
afterAll(() => t.close());

const owned = <T extends QueryResultRow>(sql: string, values: readonly unknown[] = []): Promise<readonly T[]> =>
  connected(t.database.ownerUrl, async (owner) => (await owner.query<T>(sql, [...values])).rows);
const send = async (by: Caller, ...entries: readonly object[]) =>
  (await by.post(`/sites/${house.site}/entries`, entries).expect(200)).body as readonly { as: string; problem?: string; detail?: string }[];
const good = () => house.entry({ kind: 'reading-taken', payload: roomReading(house.site) });
const bad = () => ({ ...good(), payload: { nothing: true } });
/** As if the device had already had so many refused, the last a minute ago. */
const fill = async (count: number, device: string | null): Promise<unknown> =>
  owned(
    `INSERT INTO set_aside (organisation, book, id, "as", problem, person, received_at, body, device)
       SELECT $1, $2, gen_random_uuid(), 'refused', 'malformed', $3, $4::timestamptz - interval '1 minute', '{}', $5 FROM generate_series(1, $6)`,
    [house.organisation, house.site, person.person, clock.now().toISOString(), device, count],
  );
const kept = async (): Promise<number> => Number((await owned<{ n: number }>('SELECT count(*)::int AS n FROM set_aside'))[0]?.n);

describe('what is refused in a day', () => {
  it('is kept up to so many a device; what comes then is said not to be kept, while what is right is recorded, and others have room', async () => {
    const bench = await enrolledTablet(house, 'Bench');
    const tam = await bench.signOn(person.person, person.pin);
    const first = bad();
    expect(await send(tam, first)).toMatchObject([{ as: 'refused' }]);
    const [{ device } = { device: null }] = await owned<{ device: string | null }>('SELECT device FROM set_aside');
    expect(device).not.toBeNull();
    await fill(setAsideLimits.entriesOfDay - 2, device);
    const before = await kept();
    const results = await send(tam, bad(), good(), bad(), first);
    expect(results.map(({ as }) => as)).toEqual(['refused', 'recorded', 'refused', 'refused']);
    expect(results.map(({ problem }) => problem === 'too-many-set-aside')).toEqual([false, false, true, false]);
    expect(results[2]?.detail).toMatch(/It stays on this device\. Find out why/);
    expect(await kept()).toBe(before + 1);
    const other = await house.signedOn('Oona Firth', ['baker']);
    expect(await send(other, bad())).not.toMatchObject([{ problem: 'too-many-set-aside' }]);
    clock.set('2026-11-26T03:41:00Z');
    const again = await bench.signOn(person.person, person.pin);
    expect(await send(again, bad())).not.toMatchObject([{ problem: 'too-many-set-aside' }]);
  });

  it('is kept up to so many a house, whatever the day', async () => {
    await fill(setAsideLimits.entriesOfHouse - (await kept()) - 1, null);
    await house.again();
    const other = await house.signedOn('Ro Cole', ['baker']);
    const results = await send(other, bad(), bad(), good());
    expect(results.map(({ as, problem }) => [as, problem === 'too-many-set-aside'])).toEqual([
      ['refused', false],
      ['refused', true],
      ['recorded', false],
    ]);
    expect(await kept()).toBe(setAsideLimits.entriesOfHouse);
  });
});
