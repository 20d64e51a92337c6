import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { kinds } from '@bakehouse/records';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { uuidv7 } from '../../apps/api/src/platform/ids/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { enrolledTablet, House, type Caller, type Tablet } from '../support/people.js';

const clock = new SettableClock('2026-11-25T03:40:00Z');
const kind = 'plan-approved';
const [example] = kinds.find((k) => k.name === kind)?.examples ?? [];
let t: TestApp;
let house: House;
let tablet: Tablet;
let lead: Caller;
beforeAll(async () => {
  t = await startTestApp({ clock });
  house = await House.found(t);
  tablet = await enrolledTablet(house, 'Office');
  lead = await house.signedOn('Vic Cole', ['food-safety-lead']);
});
afterAll(() => t.close());

type Entry = ReturnType<House['entry']>;
const plan = (): Entry => house.entry({ kind, payload: { ...Object(example), series: uuidv7(clock.now()) } });
const sign = async (caller: Caller, entry: Entry): Promise<string> => {
  const { body } = await caller.post('/signatures', { pin: caller.pin, entry }).expect(200);
  return String(body.signature);
};
const send = async (caller: Caller, entry: Entry, signature?: string): Promise<Record<string, unknown>> =>
  (await caller.post('/organisation/entries', [{ ...entry, ...(signature !== undefined && { send: { signature } }) }]).expect(200)).body[0];

describe('a signature', () => {
  it('says what is signed and lets exactly that entry be recorded, once', async () => {
    const entry = plan();
    const { body } = await lead.post('/signatures', { pin: lead.pin, entry }).expect(200);
    expect(body.meaning).toBe('I approve this plan; I have read each limit and what it rests on');
    expect(body.expiresAt).toBe('2026-11-25T03:42:00.000Z');
    expect(await send(lead, entry)).toMatchObject({ as: 'refused', problem: 'signature-missing' });
    expect(await send(lead, { ...entry, doneBy: lead.person }, body.signature)).toMatchObject({
      as: 'refused',
      problem: 'signature-not-valid',
    });
    expect(await send(lead, entry, body.signature)).toMatchObject({ as: 'recorded' });
    expect(await send(lead, entry, body.signature)).toMatchObject({ as: 'already-recorded' });
    expect(await send(lead, plan(), body.signature)).toMatchObject({ as: 'refused', problem: 'signature-not-valid' });
  });

  it('holds two minutes', async () => {
    const entry = plan();
    const signature = await sign(lead, entry);
    clock.advance({ minutes: 2, ms: 1 });
    expect(await send(lead, entry, signature)).toMatchObject({ as: 'refused', problem: 'signature-not-valid' });
  });

  it('is its signer’s alone', async () => {
    const other = await house.signedOn('Wyn Dale', ['food-safety-lead']);
    const entry = plan();
    expect(await send(other, entry, await sign(lead, entry))).toMatchObject({ as: 'refused', problem: 'signature-not-valid' });
  });

  it('takes the signer’s PIN, slowed as at signing on', async () => {
    const them = await house.signedOn('Xia East', ['food-safety-lead']);
    for (const pin of ['90210', '90211', '90212']) await them.post('/signatures', { pin, entry: plan() }).expect(401);
    await them.post('/signatures', { pin: them.pin, entry: plan() }).expect(429);
  });

  it('on a tapped name lets that one entry in, and makes the session no stronger', async () => {
    const { person, pin } = await house.join('Yan Firth', ['food-safety-lead']);
    const tapped = Object.assign(await tablet.tap(person), { pin });
    const entry = plan();
    const signature = await sign(tapped, entry);
    const asBefore = async (): Promise<void> => {
      expect((await tapped.get('/me').expect(200)).body).toMatchObject({
        strength: 'tapped',
        permissions: ['view', 'record', 'decide.goods'],
      });
      const party = house.rawEntry({ kind: 'party-stopped', payload: { party: uuidv7(clock.now()) } });
      expect(await send(tapped, party)).toMatchObject({ as: 'refused', problem: 'not-permitted' });
      expect(await send(tapped, plan())).toMatchObject({ as: 'refused', problem: 'signature-missing' });
    };
    await asBefore();
    expect(await send(tapped, entry, signature)).toMatchObject({ as: 'recorded' });
    await asBefore();
  });

  it('is asked for each time where people, roles and access are decided; a PIN, where PINs and tablets are', async () => {
    const { person, pin } = await house.join('Ash Vane', ['administrator', 'manager']);
    const tapped = Object.assign(await tablet.tap(person), { pin });
    const strong = await tablet.signOn(person, pin);
    const other = await house.join('Bo Lane', ['baker']);
    const role = (): Entry => house.entry({ kind: 'role-given', payload: { person, role: 'food-safety-lead', site: null, until: null } });
    const joins = house.entry({ kind: 'person-joined', payload: {}, words: { name: 'Zed' } });
    await sign(tapped, joins);
    for (const entry of [role(), joins]) {
      for (const by of [tapped, strong]) expect(await send(by, entry)).toMatchObject({ as: 'refused', problem: 'signature-missing' });
    }
    for (const [path, body] of [
      [`/people/${other.person}/pin`, { pin: '730914' }],
      ['/devices/enrolment-codes', { site: house.site }],
      [`/devices/${tablet.id}/revocation`, {}],
    ] as const) {
      expect((await tapped.post(path, { ...body, currentPin: pin }).expect(403)).body.type).toMatch(/pin-needed$/);
      expect((await strong.post(path, body).expect(400)).body.field).toBe('currentPin');
      await strong.post(path, { ...body, currentPin: '999919' }).expect(401);
      await tablet.signOn(person, pin); // what was wrong before is forgotten
    }
    expect(await send(tapped, joins, await sign(tapped, joins))).toMatchObject({ as: 'recorded' });
  });

  it('is not given to somebody who may not decide it anywhere', async () => {
    const baker = await house.signedOn('Cy Dorn', ['baker']);
    const { body } = await baker.post('/signatures', { pin: baker.pin, entry: plan() }).expect(403);
    expect(body.type).toMatch(/not-permitted$/);
  });

  it('is not given for what is not signed, cannot be read, or is no record', async () => {
    const ask = (entry: unknown) => lead.post('/signatures', { pin: lead.pin, entry });
    const stopped = house.entry({ kind: 'party-stopped', payload: { party: uuidv7(clock.now()) } });
    expect((await ask(stopped).expect(422)).body).toMatchObject({ field: 'entry.kind', acceptable: 'a kind of record that is signed' });
    expect((await ask({ ...plan(), payload: {} }).expect(400)).body.field).toBe('entry.payload.series');
    expect((await ask({ ...plan(), id: 7 }).expect(400)).body.field).toBe('entry.id');
    for (const nothing of [null, 'x', {}, { kind: 'no-such-kind' }]) expect((await ask(nothing).expect(422)).body.field).toBe('entry.kind');
  });
});
