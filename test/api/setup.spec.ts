import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { Setup } from '@bakehouse/contracts';
import { notValidated } from '@bakehouse/records';
import { uuidv7 } from '../../apps/api/src/platform/ids/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { Bakehouse } from '../support/bakehouse.js';
import { save } from '../support/drafts.js';
import { enrolledTablet, House, type Caller } from '../support/people.js';
import { flourDelivery, flourSpecification } from '../support/payloads.js';

let t: TestApp;
let house: House;
beforeAll(async () => {
  t = await startTestApp();
  house = await House.found(t);
});
afterAll(() => t.close());

const look = async (by: Caller): Promise<Setup> => (await by.get(`/sites/${house.site}/setup`).expect(200)).body as Setup;
const step = async (by: Caller, name: string): Promise<Setup['steps'][number]> => {
  const found = (await look(by)).steps.find((s) => s.step === name);
  if (!found) throw new Error(`no step ${name}`);
  return found;
};

describe('what a new house lacks', () => {
  it('is everything that it was not begun with, with who may do it', async () => {
    const found = await look(house.administrator);
    expect(found).toMatchObject({ done: false, next: 'people', site: { name: 'Mill Lane' }, caution: expect.any(String) });
    expect(found.steps.filter((s) => s.done)).toEqual([]);
    expect(found.steps.find((s) => s.step === 'places')).toMatchObject({
      permission: 'manage.site',
      roles: ['manager', 'administrator'],
      people: [{ person: house.administrator.person, name: 'Ada Min' }],
    });
    expect(found.steps.find((s) => s.step === 'plan')?.people).toEqual([]);
  });

  it('goes step by step as it comes', async () => {
    const lead = await house.signedOn('Lee Dehl', ['manager', 'food-safety-lead']);
    expect((await step(lead, 'people')).done).toBe(true);
    await enrolledTablet(house, 'Table one');
    expect(await step(lead, 'tablet')).toMatchObject({ done: true, has: 'Table one' });
    const record = (kind: 'place-in-use', name: string, type: 'mixer' | 'oven' | 'fridge') =>
      lead.post(`/sites/${house.site}/entries`, [house.entry({ kind, payload: { name, type, within: null } })]).expect(200);
    await record('place-in-use', 'Mixer', 'mixer');
    await record('place-in-use', 'Deck oven', 'oven');
    expect((await step(lead, 'places')).missing).toEqual([{ says: 'What keeps food cold: a fridge or a chiller', about: null }]);
    await record('place-in-use', 'Fridge', 'fridge');
    expect((await step(lead, 'places')).done).toBe(true);
    const flour = uuidv7(t.clock.now());
    await house.decide({ kind: 'specification-accepted', payload: { ...flourSpecification(flour), name: 'House flour', checked: null } });
    expect((await step(lead, 'materials')).missing).toEqual([
      { says: 'What House flour contains: nobody has checked it', about: { type: 'material', id: flour } },
    ]);
    await house.decide({ kind: 'specification-accepted', payload: { ...flourSpecification(flour), name: 'House flour' } });
    expect((await step(lead, 'materials')).done).toBe(true);
    expect((await step(lead, 'delivery')).done).toBe(false);
    await lead
      .post(`/sites/${house.site}/entries`, [
        house.entry({ kind: 'delivery-received', payload: flourDelivery(flour, uuidv7(t.clock.now())) }),
      ])
      .expect(200);
    expect((await step(lead, 'delivery')).done).toBe(true);
  });

  it('is read by whom may view there, and by nobody of another house', async () => {
    const viewer = await house.signedOn('Vi Ewer', ['viewer']);
    await look(viewer);
    const stranger = (await House.found(t)).administrator;
    expect((await stranger.get(`/sites/${house.site}/setup`).expect(422)).body.type).toMatch(/unknown-site$/);
    const inspector = await house.signedOn('Ina Spect', ['inspector']);
    await inspector.get(`/sites/${house.site}/setup`).expect(403);
  });

  it('names no draft to somebody who may not write them', async () => {
    const lead = await house.signedOn('Dee Raft', ['food-safety-lead']);
    await lead.post('/formulas/drafts', { id: uuidv7(t.clock.now()), name: 'Secret stollen' }).expect(200);
    const says = async (by: Caller): Promise<string> => JSON.stringify(await look(by));
    expect(await says(lead)).toContain('“Secret stollen” is a draft that nobody has approved');
    expect(await says(await house.signedOn('Bea Kerr', ['baker']))).not.toContain('Secret stollen');
  });
});

describe('a house that has baked', () => {
  it('has everything of the kitchen, until a formula that is in force uses what nobody checked', async () => {
    const b = await Bakehouse.found(t);
    const found = (await b.lead.caller.get(`/sites/${b.site}/setup`).expect(200)).body as Setup;
    const open = new Set(found.steps.filter((s) => !s.done).map((s) => s.step));
    for (const kept of ['places', 'formula', 'plan', 'suppliers'] as const) expect(open.has(kept)).toBe(false);
  });
});

describe('a starter', () => {
  it('becomes a draft of one’s own with the house’s materials, and approves nothing', async () => {
    const lead = await house.signedOn('Fay Lead', ['food-safety-lead']);
    const id = uuidv7(t.clock.now());
    await house.decide({
      kind: 'specification-accepted',
      payload: { ...flourSpecification(uuidv7(t.clock.now())), name: 'STRONG  WHITE FLOUR' },
    });
    const { body } = await lead.post('/formulas/drafts', { id, starter: 'bap' }).expect(200);
    expect(body).toMatchObject({ name: 'Soft bap', basedOn: null, ready: false, nextNumber: 1, madeBy: { name: 'Fay Lead' } });
    expect(body.content.content.lines[0]).toMatchObject({ name: 'STRONG  WHITE FLOUR', material: expect.any(String), mg: 8_000_000 });
    const fields = body.problems.map((p: { field: string }) => p.field);
    expect(fields).toEqual(expect.arrayContaining(['content.lines.1.material', 'content.makes', 'content.products.0.lifeDays']));
    expect(fields).not.toContain('content.lines.0.material');
    expect((await lead.get('/formulas').expect(200)).body).toEqual([]);
    await lead.post('/formulas/drafts', { id: uuidv7(t.clock.now()), starter: 'stolen' }).expect(400);
    await lead.post('/formulas/drafts', { id: uuidv7(t.clock.now()), starter: 'bap', formula: id }).expect(400);
  });

  it('of a plan is not put in force before somebody’s evidence stands in place of its words', async () => {
    const lead = await house.signedOn('Pia Lan', ['food-safety-lead']);
    const id = uuidv7(t.clock.now());
    const { body } = await lead.post('/plans/drafts', { id, site: house.site, starter: 'bread-and-buns' }).expect(200);
    expect(body.ready).toBe(false);
    expect(body.problems).toHaveLength(5);
    expect(body.problems[0]).toMatchObject({ field: 'content.points.0.basis', acceptable: expect.stringContaining('your own evidence') });
    await lead.get(`/plans/drafts/${id}/to-sign`).expect(422);
    const payload = { series: uuidv7(t.clock.now()), number: 1, ...body.content };
    const signed = await lead.signed(house.entry({ kind: 'plan-approved', payload }));
    expect((await lead.post('/organisation/entries', [signed]).expect(200)).body).toEqual([
      expect.objectContaining({ as: 'refused', problem: 'unacceptable-value', field: 'payload.content.points.0.basis' }),
    ]); // by the door too, whatever a page would do
    const points = body.content.content.points.map((p: object) => ({ ...p, basis: 'our own trials' }));
    const { body: whole } = await save(
      t,
      lead,
      `/plans/drafts/${id}`,
      { ...body.content, content: { ...body.content.content, points } },
      '"1"',
    ).expect(200);
    expect(whole).toMatchObject({ ready: true, problems: [] });
    expect(JSON.stringify(body.content)).toContain(notValidated);
  });
});
