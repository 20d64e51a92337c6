import { createPublicKey, verify } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { keepSeal } from '../../apps/api/src/modules/seals/seals.query.js';
import { connected, Tenancy } from '../../apps/api/src/platform/database/index.js';
import type { SealView } from '@bakehouse/contracts';
import request from 'supertest';
import { startTestApp, type TestApp } from '../support/app.js';
import { House, type Caller } from '../support/people.js';
import { verified } from '../support/verified.js';
import { roomReading } from '../support/payloads.js';

/** RFC 8032 §7.1, TEST 1: the secret key, and the public key that it gives. */
const [secret, known] = [
  '9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60',
  'd75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a',
];
const clock = new SettableClock('2026-11-25T14:02:00Z');
let t: TestApp;
let house: House;
let baker: Caller;
beforeAll(async () => {
  t = await startTestApp({ clock, env: { SEAL_KEY: Buffer.from(secret, 'hex').toString('base64') } });
  house = await House.found(t);
  baker = await house.signedOn('Bo Baker', ['baker']);
});
afterAll(() => t.close());

const reading = () =>
  house.entry({
    kind: 'reading-taken',
    payload: roomReading(house.site),
  });
const record = (n: number) => baker.post(`/sites/${house.site}/entries`, Array.from({ length: n }, reading)).expect(200);
const seal = async (): Promise<SealView> => (await baker.get(`/sites/${house.site}/seal`).expect(200)).body;

/** Checks a signed note with Node's own Ed25519, and gives its lines: another implementation than the one that signed. */
function linesOf(note: string): string[] {
  const split = note.lastIndexOf('\n\n');
  const [text, signature = ''] = [
    note.slice(0, split + 1),
    note
      .slice(split + 2)
      .trim()
      .split(' ')[2],
  ];
  const key = createPublicKey({ key: { kty: 'OKP', crv: 'Ed25519', x: Buffer.from(known, 'hex').toString('base64url') }, format: 'jwk' });
  expect(verify(null, Buffer.from(text), key, Buffer.from(signature, 'base64').subarray(4))).toBe(true);
  return text.trimEnd().split('\n');
}

describe('a seal', () => {
  it('is the head of the book, signed, with one line for paper', async () => {
    await record(3);
    const made = await seal();
    const [origin, size, root] = linesOf(made.note);
    expect([origin, size, Buffer.from(root ?? '', 'base64').toString('hex')]).toEqual([made.origin, String(made.size), made.rootHex]);
    expect(made).toMatchObject({ book: house.site, size: 3, at: '2026-11-25T14:02:00.000Z' });
    expect(made.line).toBe(`sealed 25 Nov 2026 14:02, code ${made.code}`);
    expect(made.code).toMatch(/^[0-9A-HJKMNP-TV-Z]{4}-[0-9A-HJKMNP-TV-Z]{4}$/);
    expect(made.says.join(' ')).toMatch(/can rewrite everything and seal that, and it verifies/);
  });

  it('is made once for a size, and again when the book has grown', async () => {
    const before = await seal();
    clock.advance({ minutes: 20 });
    expect(await seal()).toEqual(before);
    await record(2);
    const [one, ...others] = await Promise.all([seal(), ...Array.from({ length: 11 }, seal)]);
    for (const other of others) expect(other).toEqual(one);
    expect(one).toMatchObject({ size: before.size + 2, at: '2026-11-25T14:22:00.000Z' });
    expect(one.rootHex).not.toBe(before.rootHex);
    expect((await baker.get(`/sites/${house.site}/seals/${before.size}`).expect(200)).body).toEqual(before);
  });

  it('of the first stands, where two make one at the same time', async () => {
    const tenancy = t.app.get(Tenancy, { strict: false });
    const book = { organisation: house.organisation, id: house.site };
    const keep = (note: string) =>
      tenancy.inOrganisation(book.organisation, (client) =>
        keepSeal(client, book, { size: 1, root: new Uint8Array(32), note, at: '2026-11-25T14:00:00Z' }),
      );
    expect((await keep('first'))?.note).toBe('first');
    expect((await keep('second'))?.note).toBe('first');
    await connected(t.database.ownerUrl, async (owner) => {
      await owner.query('ALTER TABLE seal DISABLE TRIGGER seal_append_only');
      await owner.query('DELETE FROM seal WHERE book = $1 AND size = 1', [house.site]);
      await owner.query('ALTER TABLE seal ENABLE TRIGGER seal_append_only');
    });
  });

  it('that was never made is not found, and none is for another house', async () => {
    await baker.get(`/sites/${house.site}/seals/4`).expect(404);
    await baker.get(`/sites/${house.site}/seals/minus`).expect(400);
    const other = await House.found(t);
    await other.administrator.get(`/sites/${house.site}/seal`).expect(422);
  });

  it('is made of the organisation’s book too', async () => {
    const { body } = await baker.get('/organisation/seal').expect(200);
    expect(linesOf(body.note)[0]).toBe(`bakehouse-ledger.example/book/${body.book}`);
    expect((await baker.get(`/organisation/seals/${body.size}`).expect(200)).body).toEqual(body);
  });

  it('is checked with a key that anybody may have', async () => {
    const made = await seal();
    const { body } = await request(t.server).get(`/api/v1/seal-keys/${house.site}`).expect(200);
    expect(body).toMatchObject({ origin: made.origin, verifierKey: made.verifierKey });
    expect(Buffer.from(body.verifierKey.split('+').slice(2).join('+'), 'base64').subarray(1).toString('hex')).toBe(known);
    await request(t.server).get(`/api/v1/sites/${house.site}/seal`).expect(401);
  });

  it('stands against which the ledger is verified: a history that was written anew behind the service’s back does not fit it', async () => {
    await seal();
    expect((await verified(t, house)).faults).toEqual([]);
    await connected(t.database.ownerUrl, async (owner) => {
      await owner.query('ALTER TABLE entry DISABLE TRIGGER entry_append_only');
      await owner.query(`UPDATE entry SET leaf = decode(repeat('ab', 32), 'hex') WHERE book = $1 AND seq = 1`, [house.site]);
    });
    const { faults } = await verified(t, house);
    expect(faults.map((f) => f.type)).toEqual(expect.arrayContaining(['edited', 'seal-differs']));
  });
});
