import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { EntryResult } from '@bakehouse/contracts';
import { startTestApp, type TestApp } from '../support/app.js';
import { roomReading } from '../support/payloads.js';
import { enrolledTablet, House, signOn, type Caller, type Tablet } from '../support/people.js';
import { queriesDuring } from '../support/queries-during.js';

let t: TestApp;
let house: House;
let other: House;
let bo: { person: string; pin: string };
let browser: Caller;
let table: Tablet;
let shop: Tablet;
beforeAll(async () => {
  t = await startTestApp();
  [house, other] = [await House.found(t), await House.found(t)];
  bo = await house.join('Bo Baker', ['baker']);
  browser = await signOn(t, house.organisation, bo.person, bo.pin);
  [table, shop] = [await enrolledTablet(house, 'Table'), await enrolledTablet(house, 'Shop')];
});
afterAll(() => t.close());

const reading = (of: { doneBy?: string | null; device?: string | null } = {}) => {
  const entry = house.entry({ kind: 'reading-taken', payload: roomReading(house.site, '21.5'), doneBy: of.doneBy ?? null });
  return { ...entry, device: { id: of.device ?? null, seq: 1, clockErrorMs: null } };
};
const send = async (by: Caller, ...entries: object[]): Promise<EntryResult[]> =>
  (await by.post(`/sites/${house.site}/entries`, entries).expect(200)).body;

describe('who did it', () => {
  it('is one of the organisation’s people, or the entry is refused', async () => {
    const kay = await house.join('Kay Well', ['baker']);
    const results = await send(
      browser,
      reading({ doneBy: randomUUID() }),
      reading({ doneBy: other.administrator.person }),
      reading({ doneBy: kay.person }),
      reading({ doneBy: bo.person }),
      reading(),
    );
    expect(results.slice(0, 2)).toMatchObject([
      { as: 'refused', problem: 'unknown-person', field: 'doneBy' },
      { as: 'refused', problem: 'unknown-person', field: 'doneBy' },
    ]);
    expect(results.slice(2).map((r) => r.as)).toEqual(['recorded', 'recorded', 'recorded']);
  });

  it('may have left meanwhile', async () => {
    const lee = await house.join('Lee Ving', ['baker']);
    const saved = reading({ doneBy: lee.person });
    await house.decide({ kind: 'person-left', payload: { person: lee.person } });
    expect(await send(browser, saved)).toMatchObject([{ as: 'recorded' }]);
  });

  it('may have joined by an entry that comes along in the same request', async () => {
    const joined = house.entry({ kind: 'person-joined', payload: {}, words: { name: 'New Comer' } });
    const given = house.entry({
      kind: 'role-given',
      payload: { person: joined.id, role: 'baker', site: null, until: null },
      doneBy: joined.id,
      after: [joined.id],
    });
    const { body } = await house.administrator
      .post('/organisation/entries', [await house.administrator.signed(joined), await house.administrator.signed(given)])
      .expect(200);
    expect(body).toMatchObject([{ as: 'recorded' }, { as: 'recorded' }]);
  });

  it('costs nothing more where they sent it themselves, and no round trip where they did not', async () => {
    const queries = (entry: object): Promise<number> => queriesDuring(() => send(browser, entry));
    await send(browser, reading()); // the session's last touch is written
    const usual = await queries(reading());
    expect(await queries(reading({ doneBy: bo.person }))).toBe(usual);
    expect(await queries(reading({ doneBy: house.administrator.person }))).toBe(usual + 1);
  });
});

describe('the device that saved it', () => {
  it('is the tablet whose session sends it, no matter who signs on there', async () => {
    const kay = await house.join('Kay Later', ['baker']);
    const saved = reading({ doneBy: bo.person, device: table.id });
    expect(await send(await table.tap(kay.person), saved, reading({ device: null }))).toMatchObject([
      { as: 'recorded' },
      { as: 'recorded' },
    ]);
    const refused = { as: 'refused', problem: 'another-device', field: 'device.id' };
    expect(await send(await shop.tap(bo.person), reading({ device: table.id }), reading({ device: randomUUID() }))).toMatchObject([
      refused,
      refused,
    ]);
  });

  it('has no other answer for what was recorded already', async () => {
    const saved = reading({ device: table.id });
    expect(await send(await table.tap(bo.person), saved)).toMatchObject([{ as: 'recorded' }]);
    expect(await send(await shop.tap(bo.person), saved)).toMatchObject([{ as: 'already-recorded' }]);
  });

  it('is one of the organisation’s where the session has none, also one that was revoked meanwhile', async () => {
    const old = await enrolledTablet(house, 'Old');
    const foreign = await enrolledTablet(other, 'Foreign');
    const saved = reading({ device: old.id });
    await house.administrator.post(`/devices/${old.id}/revocation`, { currentPin: house.administrator.pin }).expect(204);
    expect(await send(browser, saved, reading({ device: foreign.id }), reading({ device: randomUUID() }))).toMatchObject([
      { as: 'recorded' },
      { as: 'refused', problem: 'unknown-device', field: 'device.id' },
      { as: 'refused', problem: 'unknown-device', field: 'device.id' },
    ]);
  });
});
