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
    expect(body.meaning).toBe('I approve this plan; a competent person has validated its limits');
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

  it('on a tapped name lets that person decide for as long as it holds', async () => {
    const { person, pin } = await house.join('Yan Firth', ['food-safety-lead']);
    const tapped = Object.assign(await tablet.tap(person), { pin });
    const entry = plan();
    const signature = await sign(tapped, entry);
    expect(await send(tapped, entry, signature)).toMatchObject({ as: 'recorded' });
    clock.advance({ minutes: 2 });
    expect((await tapped.get('/me').expect(200)).body.strength).toBe('tapped');
    expect(await send(tapped, plan(), signature)).toMatchObject({ as: 'refused', problem: 'not-permitted' });
  });

  it('is not given for what is not signed, cannot be read, or is no record', async () => {
    const ask = (entry: unknown) => lead.post('/signatures', { pin: lead.pin, entry });
    const joined = house.entry({ kind: 'person-joined', payload: {}, words: { name: 'Zed' } });
    expect((await ask(joined).expect(422)).body).toMatchObject({ field: 'entry.kind', acceptable: 'a kind of record that is signed' });
    expect((await ask({ ...plan(), payload: {} }).expect(400)).body.field).toBe('entry.payload.series');
    expect((await ask({ ...plan(), id: 7 }).expect(400)).body.field).toBe('entry.id');
    for (const nothing of [null, 'x', {}, { kind: 'no-such-kind' }]) expect((await ask(nothing).expect(422)).body.field).toBe('entry.kind');
  });
});
