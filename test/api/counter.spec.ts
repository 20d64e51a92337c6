import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import request from 'supertest';
import type { CounterView } from '@bakehouse/contracts';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, g } from '../support/bakehouse.js';
import { catalogue } from '../support/bakehouse-data.js';
import { House } from '../support/people.js';

/** S7 of the trade's notes: at 04:10 a tin oil of another brand, its specification says soya. */
describe('the counter', () => {
  const clock = new SettableClock('2026-11-25T08:00:00Z');
  let t: TestApp;
  let b: Bakehouse;
  let view: CounterView;
  const batches: Record<string, string> = {};

  beforeAll(async () => {
    t = await startTestApp({ clock });
    b = await Bakehouse.found(t);
    const { baker } = b;
    await b.house.decide({
      kind: 'specification-accepted',
      payload: { ...catalogue.tinOil, material: b.material('tinOil'), contains: ['soybeans'], supplier: b.party('nuts') },
      at: at('06:00', '2026-11-24'),
    });
    const flour = await b.delivered('flour', at('07:00', '2026-11-24'));
    const oilFrom = async (supplier: 'eggVan' | 'nuts', time: string): Promise<string> => {
      const lot = b.newId();
      await baker.record(
        'delivery-received',
        { supplier: b.party(supplier), noteNumber: null, photo: null, unattended: false, lines: [b.line('tinOil', lot)] },
        { at: time },
      );
      return lot;
    };
    const [oldOil, newOil] = [await oilFrom('eggVan', at('07:01', '2026-11-24')), await oilFrom('nuts', at('07:02', '2026-11-24'))];
    const open = (lot: string, time: string) =>
      baker.record('lot-opened', { station: b.place('bench'), material: b.material('tinOil'), lot, beside: false }, { at: time });
    await open(oldOil, at('08:00', '2026-11-24'));
    const dough = await b.begun('white', at('02:35'), { station: b.place('mixer') });
    await baker.record(
      'weighed-in',
      {
        make: dough,
        lines: [
          b.into('flour', '25000', flour),
          b.into('water', '15000', await b.delivered('water', at('01:00'))),
          b.into('salt', '450', await b.delivered('salt', at('01:00'))),
        ],
      },
      { at: at('02:36') },
    );
    const runs = { first: b.newId(), second: b.newId(), bap: b.newId() };
    const run = (id: string, product: 'tin' | 'bap', count: number, scaling: string) => ({
      run: id,
      product: b.material(product),
      heads: null,
      pieces: count,
      scaling: g(scaling),
    });
    await baker.record(
      'divided',
      {
        make: dough,
        quantity: null,
        oldDough: null,
        scrap: g('0'),
        runs: [run(runs.first, 'tin', 20, '910'), run(runs.second, 'tin', 20, '910'), run(runs.bap, 'bap', 20, '75')],
      },
      { at: at('03:40') },
    );
    const oil = (target: string, lot: string, time: string) =>
      baker.record(
        'added-on',
        { targetType: 'run', target, afterOven: false, lines: [{ material: b.material('tinOil'), lot, quantity: null, how: 'estimated' }] },
        { at: time },
      );
    await oil(runs.first, oldOil, at('04:00'));
    await open(newOil, at('04:10'));
    await oil(runs.second, newOil, at('04:12'));
    for (const [key, id] of Object.entries(runs)) {
      batches[key] = (
        await baker.record(
          'batch-counted-out',
          { run: id, loads: [], pieces: 20, rejects: 0, code: `25-${key}`, bakedOn: '2026-11-25', bestBefore: null, useBy: null },
          { at: at('06:00') },
        )
      ).id;
    }
    const { body } = await request(t.server).get('/api/v1/counter').expect(200);
    view = body as CounterView; // the route's contract
  });
  afterAll(() => t.close());

  const product = (name: string) => view.products.find((p) => p.name === name);

  it('answers anybody, without sign-on: one load yes, one load no, mixed on the shelf is yes', () => {
    expect(view.products.map((p) => p.name)).toEqual(['bap', 'white tin 800 g']);
    expect(product('white tin 800 g')?.answers).toMatchObject({ wheat: 'contains', soybeans: 'contains', sesame: 'not' });
    expect(product('bap')?.answers).toMatchObject({ wheat: 'contains', soybeans: 'not' });
  });

  it('says that tickets are out of date since the lot with other allergens was opened', () => {
    expect(product('white tin 800 g')).toMatchObject({ notOnTicket: ['soybeans'], staleSince: '2026-11-25T04:10:00.000Z' });
    expect(product('bap')).toMatchObject({ notOnTicket: [], staleSince: null });
    expect(view.opened).toEqual([{ at: '2026-11-25T04:10:00.000Z', how: 'opened', contains: ['soybeans'], mayContain: [] }]);
  });

  it('is "not known", never "not", once a lot that nobody can name and nobody described went in', async () => {
    const dough = await b.begun('treacle', at('06:30'), { station: b.place('bench') });
    const run = b.newId();
    await b.baker.record(
      'divided',
      {
        make: dough,
        quantity: null,
        oldDough: null,
        scrap: g('0'),
        runs: [{ run, product: b.material('tart'), heads: null, pieces: 15, scaling: g('740') }],
      },
      { at: at('06:40') },
    );
    await b.baker.record(
      'batch-counted-out',
      { run, loads: [], pieces: 15, rejects: 0, code: '25-tart', bakedOn: '2026-11-25', bestBefore: null, useBy: null },
      { at: at('07:00') },
    );
    const { body } = await request(t.server).get(`/api/v1/counter/${b.site}`).expect(200);
    const tart = body.products.find((p: { name: string }) => p.name === 'treacle tart');
    expect(tart.answers).toMatchObject({ milk: 'may-contain', eggs: 'may-contain', sesame: 'unknown', lupin: 'unknown' });
  });

  it('answers of batches that are asked about, each alone or together, for those who look at the site', async () => {
    const asked = (lots: string) => b.baker.caller.get(`/sites/${b.site}/contents?lots=${lots}`);
    const { body } = await asked(batches['first'] ?? '').expect(200);
    expect(body).toMatchObject([{ name: 'white tin 800 g', answers: { wheat: 'contains', soybeans: 'not', sesame: 'not' } }]);
    const both = (await asked(`${batches['first']},${batches['second']}`).expect(200)).body;
    expect(both).toMatchObject([{ answers: { soybeans: 'contains' } }]);
    await asked('all').expect(400);
    await request(t.server).get(`/api/v1/sites/${b.site}/contents?lots=${batches['first']}`).expect(401);
  });

  it('keeps yesterday off the list, but not what still stands on the counter', async () => {
    clock.set('2026-11-26T08:00:00Z');
    const names = async (): Promise<string[]> =>
      (await request(t.server).get('/api/v1/counter').expect(200)).body.products.map(
        (p: { name: string; onCounter: boolean }) => `${p.name} ${p.onCounter}`,
      );
    expect(await names()).toEqual([]);
    await b.signOnAgain();
    await b.baker.record('put-on-counter', { lot: batches['first'] ?? '', way: 'on', pieces: 4 }, { at: at('07:30', '2026-11-26') });
    expect(await names()).toEqual(['white tin 800 g true']);
    await b.baker.record('put-on-counter', { lot: batches['first'] ?? '', way: 'off', pieces: 0 }, { at: at('07:40', '2026-11-26') });
    expect(await names()).toEqual([]);
  });

  it('tells no lot that is not on hold, no supplier, no person and no ingredient', async () => {
    const text = JSON.stringify(view);
    for (const word of ['flour', 'oil', '25-first', 'importer', 'Baker', batches['first'] ?? '-']) expect(text).not.toContain(word);
    expect(Object.keys(view).sort()).toEqual(['asOf', 'caution', 'day', 'held', 'opened', 'products', 'site', 'sites']);
    await request(t.server).get(`/api/v1/counter/${b.newId()}`).expect(422);
  });
});

describe('the counter of a device that belongs to no site', () => {
  it('is asked which of several it is, and never guessed', async () => {
    const t = await startTestApp();
    try {
      const house = await House.found(t, [
        { name: 'Mill Lane', zone: 'Europe/London' },
        { name: 'Harbour Steps', zone: 'Europe/London' },
      ]);
      const ask = (path: string) => request(t.server).get(`/api/v1/counter${path}?organisation=${house.organisation}`);
      const { body } = await ask('').expect(422);
      expect(body).toMatchObject({
        type: expect.stringMatching(/which-site$/),
        field: 'site',
        detail: expect.stringContaining('Choose a site'),
      });
      const sites = (await ask('/sites').expect(200)).body;
      expect(sites.map((s: { name: string }) => s.name).sort()).toEqual(['Harbour Steps', 'Mill Lane']);
      expect((await ask(`/${sites[0].id}`).expect(200)).body.site).toMatchObject(sites[0]);
    } finally {
      await t.close();
    }
  });
});
