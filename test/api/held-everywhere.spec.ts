import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { InspectionView, OpenThings, TraceView } from '@bakehouse/contracts';
import { concernType, type ConcernType, pointId } from '@bakehouse/records';
import { standingOf } from '../../apps/api/src/modules/standing/index.js';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { connected, Tenancy } from '../../apps/api/src/platform/database/index.js';
import { Books } from '../../apps/api/src/platform/ledger/index.js';
import { heldOnToday, reasons } from '../support/on-today.js';
import { firstLoads } from '../support/first-core.js';
import { Hand } from '../support/hand.js';
import { againstRule } from '../support/ruled.js';
import { placeOnHold, type Baked } from '../support/sound-batch.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, celsius, g, pieces } from '../support/bakehouse.js';
import { heldPastLife, pastLifeExamples } from '../support/past-life-actions.js';
import { inItsPlace } from '../support/loosened.js';

const day = '2026-11-25';
/** Bread on hold, and the lot that the concern begins at. */
interface Example {
  readonly begins: string;
  readonly batch: string;
}

/** What the standing of a lot says, every list, page and paper says: one example of each thing that may speak against it. */
describe('what is on hold', () => {
  const clock = new SettableClock(`${day}T06:00:00Z`);
  let t: TestApp;
  let b: Bakehouse;
  let probe: (name: string) => Promise<string>;
  beforeAll(async () => {
    t = await startTestApp({ clock });
    b = await Bakehouse.found(t);
    probe = (name) => b.probeInUse(name);
    await heldPastLife(b);
  });
  afterAll(() => t.close());

  /** Twelve bloomers of a dough: of one lot of flour, unless nothing was weighed in. */
  const baked = async ({
    grams = '5600',
    counted = 12,
    divided = 12,
    plan = b.plan,
    oven = b.place('deckOven'),
    loadedAt = '04:00',
  }: Partial<Baked> = {}) => {
    const flour = b.newId();
    const came = { supplier: null, noteNumber: 'DN 7', photo: null, unattended: false, lines: [b.line('flour', flour)] };
    const { id: delivered } = await b.baker.record('delivery-received', came, { at: at('01:00') });
    const make = await b.begun('white', at('02:30'), { plan });
    if (grams !== null) await b.baker.record('weighed-in', { make, lines: [b.into('flour', grams, flour)] }, { at: at('02:31') });
    const run = b.newId();
    const runs = [{ run, product: b.material('bloomer'), heads: null, pieces: divided, scaling: g('465') }];
    await b.baker.record('divided', { make, quantity: null, oldDough: null, scrap: null, runs }, { at: at('03:30') });
    const lines = [{ run, pieces: 12 }];
    const into = { oven, deck: null, plan, bakeDay: day, setting: null, minutes: 28, lines };
    const load = (await b.baker.record('load-in', into, { at: at(loadedAt) })).id;
    const out = {
      run,
      loads: [load],
      pieces: counted,
      rejects: 0,
      ...{ code: `B-${run.slice(-6)}`, bakedOn: day, bestBefore: null, useBy: null },
    };
    const batch = (await b.baker.record('batch-counted-out', out, { at: at('05:00') })).id;
    return { flour, delivered, make, run, load, batch, out };
  };
  const core = (load: string, figure: string, instrument: string | null) =>
    b.baker.record('reading-taken', b.reading('bloomer-core', 'load', load, figure, { instrument }), { at: at('04:40') });
  const reported = (subject: string) =>
    b.baker.record(
      'deviation-reported',
      { subjectType: 'make', subject, class: 'ccp', holds: true },
      { at: at('03:00'), words: { what: 'glass' } },
    );

  const cameBack = (lot: string, customer: string | null, count: number) =>
    b.baker.record(
      'goods-returned',
      { lot, departure: null, customer, quantity: pieces(count), how: 'counted', disposition: 'on-hand' },
      { at: at('05:40') },
    );

  /** A batch of a later load of the day, by a plan that reads the core at the first: each plan on an oven of its own. */
  const afterFirst = async (figure: string | null) => {
    const of = { series: b.newId(), number: 1, site: null, content: firstLoads, ...inItsPlace };
    const { id: plan } = await new Hand(b.house, b.lead.caller, null).record('plan-approved', of);
    const oven = figure === null ? b.place('deckOven') : b.place('bench');
    const first = await baked({ plan, oven, loadedAt: '03:40' });
    const point = pointId(plan, 'first-core');
    if (figure !== null)
      await b.baker.record('reading-taken', b.reading('bloomer-core', 'load', first.load, figure, { point }), { at: at('04:40') });
    const { batch } = await baked({ plan, oven, loadedAt: '03:50' });
    return { begins: batch, batch };
  };

  const examples: Record<ConcernType, () => Promise<Example>> = {
    recall: async () => {
      const { flour: begins, batch } = await baked();
      const of = { id: b.newId(), suspect: [begins], hazard: 'physical', hazardName: 'glass', practice: false };
      await b.lead.caller.post('/recalls', of).expect(200);
      return { begins, batch };
    },
    held: async () => {
      const { flour: begins, batch } = await baked();
      await b.lead.record('hold-placed', { lot: begins, deviation: null }, { words: { because: 'moths' } });
      return { begins, batch };
    },
    'place-held': async () => {
      const { flour: begins, batch } = await baked();
      await placeOnHold(b, b.place('fridge'), begins, '02:00');
      return { begins, batch };
    },
    'open-deviation': async () => {
      const { make: begins, batch } = await baked();
      await reported(begins);
      return { begins, batch };
    },
    'closed-deviation': async () => {
      const { make: begins, run, batch } = await baked();
      const { id: deviation } = await reported(begins);
      await b.lead.record('deviation-closed', { deviation, staysOnHold: [run, batch] }, { words: { why: 'to be tasted' } });
      return { begins, batch };
    },
    refused: async () => {
      const { flour: begins, batch } = await baked();
      await b.lead.record('receipt-decided', { lot: begins, decision: 'refused' });
      return { begins, batch };
    },
    withdrawn: async () => {
      const { flour: begins, delivered, batch } = await baked();
      await b.baker.record('entry-withdrawn', {}, { corrects: delivered, words: { reason: 'typed twice' } });
      return { begins, batch };
    },
    'weigh-again': async () => {
      const { batch, load } = await baked();
      const instrument = await probe('P8');
      await core(load, '95', instrument);
      const way = { way: 'ice', at: { pressurePascal: null, altitudeMetres: null }, tolerance: null } as const;
      await b.baker.record('instrument-checked', { instrument, shown: celsius('2.6'), ...way }, { at: at('05:30') });
      return { begins: batch, batch };
    },
    unsettled: async () => {
      const { batch, load } = await baked();
      await core(load, '93.3', await probe('P9'));
      return { begins: batch, batch };
    },
    'first-load-outside': () => afterFirst('80'),
    'first-load-not-read': () => afterFirst(null),
    'not-read': async () => {
      const { batch: begins, load } = await baked();
      const { id } = await core(load, '95', null);
      await b.baker.record('released-by-rule', { batch: begins }, { at: at('05:05') });
      await b.baker.record('entry-withdrawn', {}, { corrects: id, words: { reason: 'of another load' } });
      return { begins, batch: begins };
    },
    'nothing-weighed-in': async () => {
      const { make: begins, batch } = await baked({ grams: null });
      return { begins, batch };
    },
    'more-out-than-in': async () => {
      const { make: begins, batch } = await baked({ grams: '2000' });
      return { begins, batch };
    },
    'more-baked-than-divided': async () => {
      const { run: begins, batch } = await baked({ counted: 15 });
      return { begins, batch };
    },
    'counted-twice': async () => {
      const { out, batch } = await baked({ grams: '11300', divided: 24, counted: 8 });
      await b.baker.record('batch-counted-out', { ...out, code: `${out.code}-2` }, { at: at('05:01') });
      return { begins: batch, batch };
    },
    'code-given-twice': async () => {
      const { out } = await baked({ counted: 6 });
      const { id: second } = await b.baker.record('batch-counted-out', out, { at: at('05:01') });
      return { begins: second, batch: second };
    },
    'more-back-than-sent': async () => {
      const { batch } = await baked();
      await cameBack(batch, b.party('cafeA'), 5);
      return { begins: batch, batch };
    },
    'used-past-use-by': async () => {
      const { make: begins, batch } = await baked();
      const lot = b.newId();
      const line = {
        lot,
        material: b.material('egg'),
        code: lot.slice(-4),
        codeState: 'on-it' as const,
        asWritten: null,
        bestBefore: null,
      };
      const came = (useBy: string) => ({
        supplier: null,
        noteNumber: null,
        photo: null,
        unattended: false,
        lines: [{ ...line, quantity: g('2000'), useBy, temperature: null }],
      });
      const { id } = await b.baker.record('delivery-received', came('2026-11-30'), { at: at('01:00') });
      await b.baker.record('weighed-in', { make: begins, lines: [b.into('egg', '10', lot)] }, { at: at('02:30') });
      await b.baker.record('delivery-received', came('2026-11-24'), { at: at('01:00'), corrects: id, words: { reason: 'misread' } });
      return { begins, batch };
    },
    ...pastLifeExamples(() => b, baked),
    'used-after-clean-out': async () => {
      const { flour, make: begins, batch } = await baked();
      const added = { material: b.material('flour'), lot: flour, quantity: g('500'), how: 'weighed' as const };
      const vessel = { vessel: b.place('bench'), material: b.material('flour'), kept: null, keptHow: 'estimated' as const, added: [added] };
      const content = (await b.baker.record('vessel-topped-up', vessel, { at: at('01:30') })).id;
      await b.baker.record('weighed-in', { make: begins, lines: [b.into('flour', '10', content)] }, { at: at('02:30') });
      await b.baker.record('vessel-cleaned-out', { vessel: b.place('bench') }, { at: at('02:00') });
      return { begins, batch };
    },
    'rework-against-rule': () => againstRule(b, 3),
    'more-gone-than-there-was': async () => {
      const { flour: begins, batch } = await baked();
      const about = { subjectType: 'lot', subject: begins, class: 'ccp', holds: false } as const;
      const { id: deviation } = await b.lead.record('deviation-reported', about, { words: { what: 'rain came in' } });
      const quantity = { figure: '30', unit: 'kg' } as const;
      const of = { deviation, lot: begins, covers: 'this-alone' as const, concerns: [] };
      await b.lead.record('disposition-decided', { ...of, disposition: 'destroyed', quantity });
      return { begins, batch };
    },
  };

  const standings = async (lots: readonly string[]) => {
    const books = await t.app.get(Books, { strict: false }).all(b.house.organisation);
    const { standings: of } = await t.app
      .get(Tenancy, { strict: false })
      .reading(b.house.organisation, (client) => standingOf(client, books, lots, clock.now().toISOString()));
    return of;
  };
  const open = async (): Promise<OpenThings> => (await b.lead.caller.get(`/sites/${b.site}/open`).expect(200)).body;

  const today = () => heldOnToday(b.lead.caller, b.site, clock.now().toISOString());
  it.each(concernType.options)('by %s: its standing, the list of the site, the officer’s page and a trace say the same', async (type) => {
    const { begins, batch } = await examples[type]();
    const speaks = [expect.objectContaining({ type, from: begins })];
    const said = (await standings([batch])).get(batch);
    expect(said).toMatchObject({ gone: false, concerns: speaks });
    const { held: listed } = await open();
    expect(listed.find((h) => h.lot === batch)?.concerns).toEqual(said?.concerns);
    expect(reasons(await today())).toEqual(reasons(listed));
    const page: InspectionView = (await b.lead.caller.get(`/sites/${b.site}/inspection`).expect(200)).body;
    // what is past its life itself is no batch
    if (type !== 'past-life') expect(page.batches.find((one) => one.id === batch)).toMatchObject({ standing: 'on-hold' });
    const trace: TraceView = (await b.lead.caller.get(`/lots/${batch}/trace`).expect(200)).body;
    expect(trace.onHand.find((one) => one.lot === batch)?.concerns).toEqual(said?.concerns);
  });

  /** Every lot that there is, by its standing, and those that the list names. */
  const heldAndListed = async () => {
    const { rows } = await connected(t.database.ownerUrl, (owner) =>
      owner.query<{ id: string }>('SELECT id FROM lot WHERE organisation = $1', [b.house.organisation]),
    );
    const all = await standings(rows.map((r) => r.id));
    const held = [...all].filter(([, s]) => !s.gone && s.concerns.length > 0).map(([lot]) => lot);
    return { held: held.sort(), listed: (await open()).held.map((h) => h.lot).sort() };
  };

  it('by its sums, however they came about: all that is held is on the list, and nothing else', async () => {
    const [ended, used, into] = [
      await b.begun('frangipane', at('01:00')),
      await b.begun('frangipane', at('01:10')),
      await b.begun('white', at('02:00')),
    ];
    const quantity = g('500');
    await b.baker.record('make-ended', { make: ended, quantity, how: 'weighed' }, { at: at('01:20') });
    await b.baker.record(
      'weighed-in',
      { make: into, lines: [b.into('frangipane', '900', used), b.into('water', '900')] },
      { at: at('02:05') },
    );
    const unweighed = await b.begun('white', at('03:00'));
    const lines = [b.into('flour', '1000'), { ...b.into('water', '1'), quantity: null }];
    await b.baker.record('weighed-in', { make: unweighed, lines }, { at: at('03:05') });
    const runs = [{ run: b.newId(), product: b.material('bloomer'), heads: null, pieces: 12, scaling: g('465') }];
    await b.baker.record('divided', { make: unweighed, quantity: g('3000'), oldDough: null, scrap: null, runs }, { at: at('03:30') });
    const { held, listed } = await heldAndListed();
    expect((await today()).map((h) => h.id).sort()).toEqual(listed);
    expect(held).toEqual(expect.arrayContaining([ended, used, into, runs[0]?.run]));
    expect(listed).toEqual(held);
  });

  it('by the sums of a filling that was made long ago, as soon as something is made of it', async () => {
    const filling = await b.begun('frangipane', at('01:30'));
    await b.baker.record('make-ended', { make: filling, quantity: g('2000'), how: 'weighed' }, { at: at('01:50') });
    clock.set('2027-04-01T06:00:00Z');
    await b.signOnAgain();
    const make = await b.begun('white', at('03:00', '2027-04-01'));
    const lines = [b.into('frangipane', '500', filling), b.into('flour', '900')];
    await b.baker.record('weighed-in', { make, lines }, { at: at('03:05', '2027-04-01') });
    expect((await open()).held.map((h) => h.lot)).toEqual(expect.arrayContaining([filling, make]));
  });
});
