import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { startTestApp, type TestApp } from '../support/app.js';
import { House, type Caller } from '../support/people.js';
import { statementsDuring } from '../support/queries-during.js';
import { roomReading } from '../support/payloads.js';

let t: TestApp;
let house: House;
let baker: Caller;
beforeAll(async () => {
  t = await startTestApp();
  house = await House.found(t);
  baker = await house.signedOn('Bo Baker', ['baker']);
});
afterAll(() => t.close());

const readings = (n: number) =>
  Array.from({ length: n }, () =>
    house.entry({
      kind: 'reading-taken',
      payload: roomReading(house.site),
    }),
  );
const night = () => baker.get(`/sites/${house.site}/night`).expect(200);

describe('one screen of the night', () => {
  it('is one request with the same number of queries, whatever its size', async () => {
    await night();
    await baker.post(`/sites/${house.site}/entries`, readings(1)).expect(200); // else what was worked out a moment ago is answered
    const small = await statementsDuring(night);
    for (let i = 0; i < 5; i += 1) await baker.post(`/sites/${house.site}/entries`, readings(200)).expect(200);
    const large = await statementsDuring(night);
    expect((await night()).body.rows.reading).toHaveLength(1001);
    expect(large).toEqual(small);
    expect(small.length).toBeLessThanOrEqual(12);
  });

  it('shows a night by the site’s own date, and leaves old nights out', async () => {
    const { body } = await baker.get(`/sites/${house.site}/night?day=2026-12-24`).expect(200);
    expect(body.rows.reading).toEqual([]);
    await baker.get(`/sites/${house.site}/night?day=2026-02-30`).expect(400);
  });

  it('names a supplier and gives no telephone number: a lost tablet would give it away', async () => {
    const party = '0190a6d0-7b3c-7000-8000-0000000000a2';
    const words = { name: 'Corner café', contactName: 'Bo', phone: '01632 960123', email: 'bo@cafe.example', address: '1 Quay' };
    await house.decide({ kind: 'party-accepted', payload: { party, type: 'customer', vulnerable: false, unattended: false }, words });
    const [row] = (await night()).body.rows.party;
    expect(row).toMatchObject({ name: 'Corner café', contactName: null, phone: null, email: null, address: null });
  });

  it('is not for another house', async () => {
    const other = await House.found(t);
    await other.administrator.get(`/sites/${house.site}/night`).expect(422);
  });
});
