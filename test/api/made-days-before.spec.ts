import { pointId, type PayloadFor, type PlanContent } from '@bakehouse/records';
import { batchesOf, inStock, lookupOf, onHandOf, type Lookup } from '@bakehouse/views';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { batchStandings } from '../../apps/api/src/modules/standing/index.js';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { Tenancy } from '../../apps/api/src/platform/database/index.js';
import { Books } from '../../apps/api/src/platform/ledger/index.js';
import { letGo } from '../../apps/api/src/platform/ledger/on-watch.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, g } from '../support/bakehouse.js';
import { formulasOf, pointKeys } from '../support/bakehouse-data.js';
import { Hand } from '../support/hand.js';
import { looseningsOf } from '../support/loosened.js';

const now = '2026-11-25T09:00:00.000Z';
const [made, today] = ['2026-11-20', '2026-11-25'];
const long = '2026-11-02T08:00:00+00:00';

/** A filling that was made five days ago is on no list of a night of two days; what it says of what is made of it today must be. */
describe('what was made here days before the night', () => {
  let t: TestApp;
  let b: Bakehouse;
  let plan: string;
  let version: string;
  beforeAll(async () => {
    t = await startTestApp({ clock: new SettableClock(now) });
    b = await Bakehouse.found(t);
    const signs = new Hand(b.house, b.lead.caller, null);
    const cooked: PlanContent['points'][number] = {
      ...{ key: 'cooked', name: 'cooked', step: 'mix', class: 'ccp', hazard: 'germs', formulas: [b.formulaId('frangipane')], products: [] },
      ...{ measured: 'core', parameter: 'core temperature', limit: { type: 'range', min: '80', max: null, unit: 'degC' } },
      ...{ holdSeconds: null, frequency: 'each-make', ifNotMonitored: 'hold', ifOutside: 'hold' },
      ...{ correctiveAction: 'cook on', basis: 'for tests; nobody validated it', validated: null },
    };
    const content = {
      name: 'Fillings',
      scope: 'all',
      team: 'lead',
      pastLife: { opened: 'warn', madeHere: 'warn' } as const,
      points: [cooked],
    };
    plan = (
      await signs.record(
        'plan-approved',
        { series: b.newId(), number: 1, site: null, content, loosened: looseningsOf(pointKeys) },
        { at: long },
      )
    ).id;
    const [, type, name, of] = formulasOf(b.ids).find(([key]) => key === 'frangipane') ?? [];
    if (type === undefined || name === undefined || of === undefined) throw new Error('no frangipane');
    const keeps: PayloadFor<'formula-approved'> = {
      formula: b.formulaId('frangipane'),
      number: 2,
      name,
      type,
      content: { ...of, lifeHours: 72 },
    };
    version = (await signs.record('formula-approved', keeps, { at: long })).id;
  });
  afterAll(() => t.close());

  const cook = async (core: string | null, lines?: PayloadFor<'weighed-in'>['lines']): Promise<string> => {
    const make = await b.begun('frangipane', at('03:00', made), { plan, formulaVersion: version });
    const all = lines ?? [b.into('almond', '2000', await b.delivered('almond', at('01:00', made))), b.into('butter', '2150')];
    await b.baker.record('weighed-in', { make, lines: all }, { at: at('03:10', made) });
    if (core === null) return make;
    const reading = b.reading('tart-core', 'make', make, core, { point: pointId(plan, 'cooked') });
    await b.baker.record('reading-taken', reading, { at: at('03:30', made) });
    return make;
  };
  const onDay = (time: string) => ({ at: at(time, made) });
  /** Tartlets of it, counted out today; the batch. */
  const bake = async (filling: string, grams = '1000', more: PayloadFor<'weighed-in'>['lines'] = []): Promise<string> => {
    const make = await b.begun('tartlets', at('04:00'), { station: b.place('bench') });
    await b.baker.record(
      'weighed-in',
      { make, lines: [b.into('pastry', '4812'), b.into('frangipane', grams, filling), ...more] },
      { at: at('04:05') },
    );
    return bakedOf(make);
  };
  const bakedOf = async (make: string): Promise<string> => {
    const run = b.newId();
    const runs = [{ run, product: b.material('tartlet'), heads: null, pieces: 40, scaling: g('123') }];
    await b.baker.record('divided', { make, quantity: null, oldDough: null, scrap: null, runs }, { at: at('04:10') });
    const oven = { oven: b.place('deckOven'), deck: null, plan: b.plan, bakeDay: today, setting: null, minutes: 20 };
    const { id: load } = await b.baker.record('load-in', { ...oven, lines: [{ run, pieces: 40 }] }, { at: at('04:20') });
    await b.baker.record('reading-taken', b.reading('tartlet-core', 'load', load, '77', { seconds: 30 }), { at: at('04:40') });
    const out = { run, loads: [load], pieces: 40, rejects: 0, code: `T-${run.slice(-6)}`, bakedOn: today, bestBefore: null, useBy: null };
    return (await b.baker.record('batch-counted-out', out, { at: at('05:00') })).id;
  };
  const tablet = async (): Promise<Lookup> => lookupOf(await b.night(), now, 'Europe/London', b.site);
  const service = async (batch: string) => {
    const books = await t.app.get(Books, { strict: false }).all(b.house.organisation);
    return t.app.get(Tenancy, { strict: false }).inOrganisation(b.house.organisation, async (client) => {
      return (await batchStandings(client, books, [batch], now)).get(batch);
    });
  };
  const everythingOver = () =>
    t.app.get(Tenancy, { strict: false }).inOrganisation(b.house.organisation, (c) => letGo(c, b.house.organisation, null));
  const releaseOnTablet = async (batch: string) => batchesOf(await tablet(), today).find((x) => x.id === batch)?.release;

  it('is in stock at the table, past its life, until it is used up or counted away', async () => {
    const filling = await cook(null);
    await everythingOver();
    const found = inStock(await tablet()).find((l) => l.id === filling);
    expect(found).toMatchObject({ type: 'made', leftMg: 4_150_000, trouble: 'past-life-used' });
    await bake(filling, '4150');
    await everythingOver();
    expect(inStock(await tablet()).map((l) => l.id)).not.toContain(filling);
  });

  it('stops what is made of it where its core was never read, on the tablet as in the house', async () => {
    const batch = await bake(await cook(null));
    expect([await service(batch), (await releaseOnTablet(batch))?.state]).toEqual(['on-hold', 'on-hold']);
  });

  it('stops nothing where it was read', async () => {
    const batch = await bake(await cook('82'));
    expect([await service(batch), (await releaseOnTablet(batch))?.state]).toEqual(['ready', 'may-go']);
  });

  it('stops what is made of it where nobody knows what went into it', async () => {
    await b.delivered('almond', at('00:30', made));
    const batch = await bake(await cook('82', [b.into('almond', '2000', null), b.into('butter', '2150')]));
    expect([await service(batch), (await releaseOnTablet(batch))?.state]).toEqual(['waiting', 'waits']);
  });

  it('is a batch that nobody released: what its load was never read for stops it, days later too', async () => {
    const make = await b.begun('white', at('02:30', made));
    const run = b.newId();
    const runs = [{ run, product: b.material('bloomer'), heads: null, pieces: 12, scaling: g('465') }];
    await b.baker.record(
      'weighed-in',
      { make, lines: [b.into('flour', '5600', await b.delivered('flour', at('01:00', made)))] },
      onDay('02:31'),
    );
    await b.baker.record('divided', { make, quantity: null, oldDough: null, scrap: null, runs }, onDay('03:30'));
    const oven = { oven: b.place('deckOven'), deck: null, plan: b.plan, bakeDay: made, setting: null, minutes: 28 };
    const { id: load } = await b.baker.record('load-in', { ...oven, lines: [{ run, pieces: 12 }] }, onDay('04:00'));
    const out = { run, loads: [load], pieces: 12, rejects: 0, code: `B-${run.slice(-6)}`, bakedOn: made, bestBefore: null, useBy: null };
    const { id: batch } = await b.baker.record('batch-counted-out', out, onDay('05:00'));
    const stock = onHandOf(await tablet()).flatMap((p) => p.lots);
    expect([await service(batch), stock.find((l) => l.id === batch)?.release]).toEqual(['waiting', 'waits']);
  });

  it('is the only lot that an unnamed one of today may be of, although nothing is left of it', async () => {
    const salt = await b.delivered('salt', at('01:00', made));
    await b.baker.record('lot-counted', { lot: salt, place: null, quantity: g('0') }, onDay('20:00'));
    await everythingOver();
    const filling = await cook('82');
    const batch = await bake(filling, '1000', [b.into('salt', '10', null)]);
    expect([await service(batch), (await releaseOnTablet(batch))?.state]).toEqual(['waiting', 'waits']);
    expect(inStock(await tablet()).map((l) => l.id)).not.toContain(salt);
  });

  it('is a lot whose code alone was found for an unnamed one of today, although nothing is left of it and others came later', async () => {
    const syrup = await b.delivered('syrup', at('01:00', made), { code: 'S-7' });
    await b.delivered('syrup', at('01:30', made), { code: 'S-8' });
    await b.baker.record('lot-counted', { lot: syrup, place: null, quantity: g('0') }, onDay('20:00'));
    await everythingOver();
    const filling = await cook('82');
    const make = await b.begun('tartlets', at('04:00'), { station: b.place('bench') });
    const lines = [b.into('pastry', '4812'), b.into('frangipane', '1000', filling), b.into('syrup', '10', null)];
    const { outcome } = await b.baker.record('weighed-in', { make, lines }, { at: at('04:05') });
    const batch = await bakedOf(make);
    expect((await releaseOnTablet(batch))?.state).toBe('waits');
    await b.baker.record(
      'lot-identified',
      { lot: outcome.lines[2]?.lot ?? '', code: 's7', same: null, delivery: null },
      { at: at('06:00') },
    );
    expect([await service(batch), (await releaseOnTablet(batch))?.state]).toEqual(['waiting', 'waits']);
    expect(inStock(await tablet()).map((l) => l.id)).not.toContain(syrup);
  });
});
