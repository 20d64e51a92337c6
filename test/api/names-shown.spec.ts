import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import request from 'supertest';
import { startTestApp, type TestApp } from '../support/app.js';
import { enrolledTablet, House } from '../support/people.js';

/** Behind one proxy, so that a test says from where somebody asks. */
describe('the names to tap', () => {
  let t: TestApp;
  let house: House;
  beforeAll(async () => {
    t = await startTestApp({ env: { TRUST_PROXY: '1' } });
    house = await House.found(t);
  });
  afterAll(() => t.close());

  const namesFrom = async (address: string): Promise<unknown> => {
    const { body } = await request(t.server).get('/api/v1/sign-on/people').set('x-forwarded-for', address).expect(200);
    return { shown: body.people.map((p: { name: string }) => p.name), allShown: body.allShown }; // the route's contract
  };
  const signOnFrom = (address: string, who: object, pin: string) =>
    request(t.server)
      .post('/api/v1/sign-on')
      .set('x-forwarded-for', address)
      .send({ organisation: house.organisation, ...who, pin });

  it('are all on a tablet of the house and on the machine itself, and none for a stranger', async () => {
    const tablet = await enrolledTablet(house, 'Table');
    expect((await tablet.get('/sign-on/people').expect(200)).body).toMatchObject({ allShown: true, people: [{ name: 'Ada Min' }] });
    expect(await namesFrom('127.0.0.1')).toEqual({ shown: ['Ada Min'], allShown: true });
    expect(await namesFrom('203.0.113.7')).toEqual({ shown: [], allShown: false });
  });

  it('are, anywhere else, those whose PIN was right there', async () => {
    const bea = await house.join('Bea Ker', ['baker']);
    await signOnFrom('203.0.113.9', { person: bea.person }, '999919').expect(401);
    expect(await namesFrom('203.0.113.9')).toEqual({ shown: [], allShown: false });
    await signOnFrom('203.0.113.9', { person: bea.person }, bea.pin).expect(200);
    expect(await namesFrom('203.0.113.9')).toEqual({ shown: ['Bea Ker'], allShown: false });
    expect(await namesFrom('203.0.113.10')).toEqual({ shown: [], allShown: false });
  });

  it('can be typed instead: the whole name, however its letters are written; two of one name, or nobody, are answered like a wrong PIN', async () => {
    const cy = await house.join('Zoë Dale', ['baker']);
    await signOnFrom('203.0.113.11', { name: '  zoe\u0308 DALE ' }, cy.pin).expect(200);
    await signOnFrom('203.0.113.11', { name: 'Zoë' }, cy.pin).expect(401);
    await house.join('Zoë Dale', ['baker']);
    await signOnFrom('203.0.113.12', { name: 'Zoë Dale' }, cy.pin).expect(401);
    expect((await signOnFrom('203.0.113.12', { name: 'Zoë Dale', person: cy.person }, cy.pin).expect(400)).body.field).toBe('person');
    expect((await signOnFrom('203.0.113.12', {}, cy.pin).expect(400)).body.field).toBe('person');
  });
});
