import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { startTestApp, type TestApp } from '../support/app.js';
import { House } from '../support/people.js';

describe('the list of people', () => {
  let t: TestApp;
  let house: House;
  beforeAll(async () => {
    t = await startTestApp();
    house = await House.found(t);
  });
  afterAll(() => t.close());
  const list = async () =>
    (await house.administrator.get('/people').expect(200)).body as {
      id: string;
      name: string;
      hasPin: boolean;
      leftAt: string | null;
      roles: { role: string; given: string }[];
      accesses: unknown[];
    }[];

  it('says who may do what now, who has a PIN, who left, and until when an inspector may look', async () => {
    const { person: baker } = await house.join('Bo Baker', ['baker', 'food-safety-lead']);
    const { person: gone } = await house.join('Kit Gone', ['baker']);
    await house.join('Ina Spect', ['inspector']);
    const role = (await list()).find((p) => p.id === baker)?.roles.find((r) => r.role === 'baker');
    await house.decide(
      { kind: 'role-taken-away', payload: { given: role?.given ?? '' } },
      { kind: 'person-left', payload: { person: gone } },
    );
    const people = await list();
    expect(people.map((p) => p.name)).toEqual(['Ada Min', 'Bo Baker', 'Ina Spect', 'Kit Gone']);
    expect(people.find((p) => p.id === baker)).toMatchObject({
      hasPin: true,
      leftAt: null,
      roles: [{ role: 'food-safety-lead', site: null, until: null }],
    });
    expect(people.find((p) => p.id === gone)?.leftAt).toMatch(/Z$/);
    expect(people.find((p) => p.name === 'Ina Spect')).toMatchObject({
      roles: [],
      accesses: [{ from: '2026-10-26', until: null, expires: '2026-11-26T03:40:00.000Z' }],
    });
  });

  it('is for somebody who looks after people', async () => {
    const baker = await house.signedOn('Bea Kerr', ['baker']);
    await baker.get('/people').expect(403);
    const lead = await house.signedOn('Lee Ad', ['food-safety-lead']); // opens an inspector's access, so must find the inspector
    await lead.get('/people').expect(200);
  });

  it('never loses its last administrator: the role goes to somebody else first', async () => {
    const { administrator } = house;
    const leave = house.entry({ kind: 'person-left', payload: { person: administrator.person } });
    const { body } = await administrator.post('/organisation/entries', [await administrator.signed(leave)]).expect(200);
    expect(body).toMatchObject([{ as: 'refused', problem: 'last-administrator', detail: expect.stringContaining('to somebody else') }]);
    await house.join('Ada Two', ['administrator']);
    await administrator
      .post('/organisation/entries', [await administrator.signed(leave)])
      .expect(200)
      .expect(({ body: [result] }) => {
        expect(result.as).toBe('recorded');
      });
  });
});
