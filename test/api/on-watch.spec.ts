import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import type { ClientBase } from 'pg';
import { collections, pointId, watchedCollections, type PlanContent } from '@bakehouse/records';
import { readConfig } from '../../apps/api/src/platform/config/index.js';
import { followedStandingOf, heldLots, standingOf } from '../../apps/api/src/modules/standing/index.js';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { Tenancy } from '../../apps/api/src/platform/database/index.js';
import { Books, concernBegins, openDeviations, openHolds } from '../../apps/api/src/platform/ledger/index.js';
import { letGo } from '../../apps/api/src/platform/ledger/on-watch.js';
import { ledgerCommand } from '../../apps/api/src/records.command.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, celsius, g } from '../support/bakehouse.js';
import { Hand } from '../support/hand.js';
import { heldPastLife, pastLifeActions } from '../support/past-life-actions.js';
import { breadActions } from '../support/bread-actions.js';
import { placeActions } from '../support/place-actions.js';
import { size } from '../support/size.js';
import { inItsPlace } from '../support/loosened.js';

const now = '2026-11-25T20:00:00.000Z';
const day = '2026-11-25';

interface Bread {
  readonly flour: string;
  readonly delivered: string;
  readonly make: string;
  readonly weighed: string | null;
  readonly run: string;
  readonly load: string;
  readonly batch: string;
}

describe('what is on watch', () => {
  let t: TestApp;
  let b: Bakehouse;
  let probe: string;
  let white: string;
  beforeAll(async () => {
    t = await startTestApp({ clock: new SettableClock(now) });
    b = await Bakehouse.found(t);
    probe = await b.probeInUse();
    white = await heldPastLife(b);
  });
  afterAll(() => t.close());

  const inBook = <T>(work: (client: ClientBase) => Promise<T>): Promise<T> =>
    t.app.get(Tenancy, { strict: false }).inOrganisation(b.house.organisation, work);
  const onWatch = async (): Promise<Set<string>> => {
    const { rows } = await inBook((c) =>
      c.query<{ id: string }>('SELECT id FROM on_watch WHERE organisation = $1', [b.house.organisation]),
    );
    return new Set(rows.map((r) => r.id));
  };
  const everythingOver = async (): Promise<void> => {
    await inBook((c) => letGo(c, b.house.organisation, null));
  };
  const withdraw = (corrects: string) => b.lead.record('entry-withdrawn', {}, { corrects, words: { reason: 'typed twice' } });

  async function baked(grams: string | null = '5600'): Promise<Bread> {
    const flour = b.newId();
    const delivery = { supplier: null, noteNumber: 'DN 7', photo: null, unattended: false, lines: [b.line('flour', flour)] };
    const { id: delivered } = await b.baker.record('delivery-received', delivery, { at: at('01:00') });
    const begun = { formulaVersion: white, station: b.place('mixer'), plan: b.plan, bakeDay: day, plannedMg: null };
    const make = (await b.baker.record('make-begun', begun, { at: at('02:30') })).id;
    const into = { make, lines: [b.into('flour', grams ?? '0', flour)] };
    const weighed = grams === null ? null : (await b.baker.record('weighed-in', into, { at: at('02:31') })).id;
    const run = b.newId();
    const runs = [{ run, product: b.material('bloomer'), heads: null, pieces: 12, scaling: g('465') }];
    await b.baker.record('divided', { make, quantity: null, oldDough: null, scrap: null, runs }, { at: at('03:30') });
    const lines = [{ run, pieces: 12 }];
    const oven = { oven: b.place('deckOven'), deck: null, plan: b.plan, bakeDay: day, setting: null, minutes: 28, lines };
    const load = (await b.baker.record('load-in', oven, { at: at('04:00') })).id;
    const out = { run, loads: [load], pieces: 12, rejects: 0, code: `B-${run.slice(-6)}`, bakedOn: day, bestBefore: null, useBy: null };
    const batch = (await b.baker.record('batch-counted-out', out, { at: at('05:00') })).id;
    return { flour, delivered, make, weighed, run, load, batch };
  }
  const core = (load: string, figure: string, minute: string) =>
    b.baker.record('reading-taken', b.reading('bloomer-core', 'load', load, figure, { instrument: probe }), { at: at(`04:${minute}`) });
  const checked = (shown: string, time: string) => {
    const way = { way: 'ice', at: { pressurePascal: null, altitudeMetres: null }, tolerance: null } as const;
    return b.baker.record('instrument-checked', { instrument: probe, shown: celsius(shown), ...way }, { at: at(time) });
  };
  const cameBack = (lot: string, grams: string) => {
    const of = { lot, departure: null, customer: null, how: 'weighed' as const, disposition: 'on-hand' as const };
    return b.baker.record('goods-returned', { ...of, quantity: g(grams) }, { at: at('08:10') });
  };
  const held = (lot: string) => b.lead.record('hold-placed', { lot, deviation: null }, { at: at('09:00'), words: { because: 'glass' } });

  it('is what is open: a hold that was lifted and a dough in order are let go, and a hold that stands is not', async () => {
    const [over, stands] = [await baked(), await baked()];
    const lifted = await held(over.batch);
    await b.lead.record('hold-lifted', { hold: lifted.id }, { at: at('10:00'), words: { why: 'another jar' } });
    const open = await held(stands.batch);
    await everythingOver();
    const left = await onWatch();
    for (const id of [lifted.id, ...Object.values(over)]) expect(left).not.toContain(id);
    for (const id of [open.id, stands.batch]) expect(left).toContain(id);
    expect(left).not.toContain(stands.flour);
  });

  it('is what the flour went into once it is told late that it was open too long by then, and what a dough came to that was past its life', async () => {
    const [opened, ended] = [await baked(), await baked()];
    await everythingOver();
    for (const lot of [opened.make, ended.run]) expect(await onWatch()).not.toContain(lot);
    const tell = pastLifeActions(() => b);
    await tell['the flour is opened, long before it is used or just then']?.(opened, 0, []);
    await tell['the dough is ended, past its life when it is divided or not']?.(ended, 0, []);
    await everythingOver();
    expect([...(await onWatch())]).toEqual(expect.arrayContaining([opened.make, ended.run]));
    const { listed, standing } = await onHold();
    expect(listed).toEqual(standing);
    expect(listed).toEqual(expect.arrayContaining([opened.flour, opened.batch, ended.batch]));
  });

  it('is what was at a place that is put on hold for earlier, and once it is told late that something was there', async () => {
    const [told, late] = [await baked(), await baked()];
    const wasThere = (x: Bread) =>
      b.baker.record('lot-counted', { lot: x.flour, place: b.place('freezer'), quantity: g('10') }, { at: at('02:00') });
    await wasThere(told);
    await everythingOver();
    expect(await onWatch()).not.toContain(told.flour);
    const held = { place: b.place('freezer'), from: `${day}T01:30:00Z`, until: `${day}T02:10:00Z` };
    await b.lead.record('place-put-on-hold', held, { at: at('09:00'), words: { because: 'a light broke' } });
    await everythingOver();
    expect(await onWatch()).toContain(told.flour);
    await wasThere(late);
    await everythingOver();
    expect(await onWatch()).toContain(late.flour);
    const { listed, standing } = await onHold();
    expect(listed).toEqual(expect.arrayContaining([told.batch, late.batch]));
    expect(listed).toEqual(standing);
  });

  it('is no flour of which some came back from nobody in particular, and less than was sent', async () => {
    const { flour } = await baked();
    const lines = [{ lots: [flour], quantity: g('5000'), how: 'weighed' as const }];
    await b.baker.record('sent-out', { channel: 'stall', customer: null, unattended: false, until: null, lines }, { at: at('08:00') });
    await cameBack(flour, '100');
    await everythingOver();
    expect(await onWatch()).not.toContain(flour);
  });

  it('is everything after a rebuild, and so is what may still be here', async () => {
    const { flour, batch } = await baked();
    await b.baker.record('lot-counted', { lot: flour, place: null, quantity: g('0') }, { at: at('09:00') });
    await everythingOver();
    const here = async () => {
      const { rows } = await inBook((c) =>
        c.query<{ id: string }>('SELECT id FROM still_here WHERE organisation = $1', [b.house.organisation]),
      );
      return rows.map((r) => r.id);
    };
    expect(await onWatch()).not.toContain(batch);
    expect(await here()).not.toContain(flour);
    expect(await ledgerCommand(t.database, { config: readConfig({}), words: ['rebuild'], say: () => undefined })).toBe(0);
    expect(await onWatch()).toContain(batch);
    expect(await here()).toContain(flour);
  });

  it('is a control that was put right once the thermometer that said so fails its check, and it is on hold again', async () => {
    const crumb: PlanContent['points'][number] = {
      key: 'crumb',
      name: 'crumb',
      step: 'bake',
      class: 'oprp',
      hazard: 'germs',
      formulas: [],
      products: [b.material('bloomer')],
      measured: 'core',
      parameter: 'core temperature',
      limit: { type: 'range', min: '93', max: null, unit: 'degC' },
      holdSeconds: null,
      frequency: 'each-load',
      ifNotMonitored: 'hold',
      ifOutside: 'hold',
      correctiveAction: 'back in the oven',
      basis: 'for tests; nobody validated it',
      validated: null,
    };
    const pastLife = { opened: 'warn', madeHere: 'warn' } as const;
    const content = { name: 'Controls', scope: 'bloomers', team: 'lead', pastLife, points: [crumb] };
    const signs = new Hand(b.house, b.lead.caller, null);
    const { id: plan } = await signs.record('plan-approved', { series: b.newId(), number: 1, site: null, content, ...inItsPlace });
    const other = await b.probeInUse('P8');
    const { load, batch } = await baked();
    const read = (figure: string, minute: string) => {
      const of = b.reading('bloomer-core', 'load', load, figure, { point: pointId(plan, 'crumb'), instrument: other });
      return b.baker.record('reading-taken', of, { at: at(`04:${minute}`) });
    };
    await read('80', '30');
    const { rows } = await inBook((c) => c.query<{ id: string; class: string }>(lowOnes, [b.house.organisation, load]));
    expect(rows.map((d) => d.class)).toEqual(['oprp']);
    await b.baker.record('corrective-action-taken', { deviation: rows[0]?.id ?? '', type: 'back-in-the-oven' }, { at: at('04:40') });
    await read('97', '50');
    await everythingOver();
    expect(await onWatch()).not.toContain(batch);
    const ice = { way: 'ice', at: { pressurePascal: null, altitudeMetres: null }, tolerance: null } as const;
    await b.baker.record('instrument-checked', { instrument: other, shown: celsius('2.6'), ...ice }, { at: at('07:00') });
    await everythingOver();
    expect(await onWatch()).toContain(batch);
    const { listed, standing } = await onHold();
    expect(listed).toEqual(standing);
    expect(listed).toContain(batch);
  });

  it('names every table by whose rows a concern may begin, or a deviation or a hold be open', () => {
    const texts = [concernBegins, openDeviations, openHolds].join(' ');
    const asked = [...Object.entries(collections)].filter(([, { name }]) => new RegExp(`(FROM|JOIN) "?${name}"?[ )]`).test(texts));
    expect(asked.length).toBeGreaterThan(15);
    expect(asked.map(([collection]) => collection).filter((collection) => !watchedCollections.has(collection))).toEqual([]);
  });

  /** Each of the bread that everything was let go of before; what may be withdrawn later is noted. */
  type Action = (x: Bread, n: number, done: string[]) => Promise<unknown>;
  const pick = (list: readonly string[], n: number): string => list[n % list.length] ?? '';
  const noting = async (done: string[], recorded: Promise<{ readonly id: string }>): Promise<unknown> => done.push((await recorded).id);
  const actions: Readonly<Record<string, Action>> = {
    'the last is withdrawn': async (_x, _n, done) => {
      const last = done.pop();
      if (last !== undefined) await withdraw(last);
    },
    ...placeActions(() => b),
    ...pastLifeActions(() => b),
    ...breadActions(() => b),
    'a core is read: low, close to the limit or well': (x, n, done) =>
      noting(done, core(x.load, ['80', '93.3', '97'][n % 3] ?? '', `${30 + n}`)),
    'a core is low, something is done about it, and it is well': async (x, n, done) => {
      await core(x.load, '80', `${10 + n}`);
      const deviation = (await inBook((c) => c.query<{ id: string }>(lowOnes, [b.house.organisation, x.load]))).rows[0]?.id ?? '';
      await noting(done, b.baker.record('corrective-action-taken', { deviation, type: 'back-in-the-oven' }, { at: at(`04:${20 + n}`) }));
      await noting(done, core(x.load, '97', `${50 + n}`));
    },
    'a thermometer is checked, well or not, before or after': (_x, n, done) =>
      noting(done, checked(n % 2 === 0 ? '2.6' : '0.1', pick(['04:10', '04:50', '07:00'], n))),
    'what was weighed in is withdrawn': async (x) => {
      if (x.weighed !== null) await withdraw(x.weighed);
    },
    'the delivery is withdrawn': (x) => withdraw(x.delivered),
    'some comes back that was never sent': async (x, n, done) => noting(done, cameBack(x.flour, n % 2 === 0 ? '100' : '5000')),
  };

  /** A random step may be one that the door refuses. */
  const unlessRefused = (error: unknown): void => {
    if (!String(error).includes('"as":"refused"')) throw error;
  };
  const lowOnes = 'SELECT id, class FROM deviation WHERE organisation = $1 AND subject = $2 AND holds ORDER BY at LIMIT 1';

  /** What would be on watch at least if everything were looked at, and is not. */
  async function missing(): Promise<unknown[]> {
    const organisation = b.house.organisation;
    const all = 'watched(lot) AS MATERIALIZED (SELECT id FROM lot UNION SELECT id FROM deviation UNION SELECT id FROM hold)';
    const open = `${concernBegins} UNION SELECT id FROM (${openDeviations}) d UNION ${openHolds}`;
    const { rows } = await inBook((c) =>
      c.query(`WITH ${all} SELECT * FROM (${open}) o WHERE lot NOT IN (SELECT id FROM on_watch WHERE organisation = $1)`, [organisation]),
    );
    return rows;
  }
  /** What is on hold by the list, and by the standing of every lot there is. */
  async function onHold(): Promise<{ readonly listed: string[]; readonly standing: string[] }> {
    const books = await t.app.get(Books, { strict: false }).all(b.house.organisation);
    return inBook(async (c) => {
      const { held: listed } = await heldLots(c, books, b.house.organisation, now);
      const { rows } = await c.query<{ id: string }>('SELECT id FROM lot WHERE organisation = $1', [b.house.organisation]);
      const lots = rows.map((r) => r.id);
      const { standings } = await followedStandingOf(c, books, lots, now);
      // what asks from what is on watch says the same of every lot, asked for together and alone
      expect((await standingOf(c, books, lots, now)).standings).toEqual(standings);
      const one = [...standings].filter(([, s]) => s.concerns.length > 0).slice(0, 1);
      for (const [lot, standing] of one) expect((await standingOf(c, books, [lot], now)).standings.get(lot)).toEqual(standing);
      const standing = [...standings].filter(([, s]) => !s.gone && s.concerns.length > 0).map(([lot]) => lot);
      return { listed: [...listed.keys()].sort(), standing: standing.sort() };
    });
  }

  it('hides nothing, whatever is recorded once it was let go', async () => {
    const step = fc.tuple(fc.constantFrom(...Object.keys(actions)), fc.nat(9));
    const property = fc.asyncProperty(fc.array(step, { minLength: 3, maxLength: 8 }), fc.boolean(), async (steps, weighed) => {
      const bread = await baked(weighed ? '5600' : null);
      await core(bread.load, '97', '40');
      const done: string[] = [];
      for (const [name, n] of steps) {
        await everythingOver();
        await actions[name]?.(bread, n, done).catch(unlessRefused);
        expect([name, await missing()]).toEqual([name, []]);
        const { listed, standing } = await onHold();
        expect([name, listed]).toEqual([name, standing]);
      }
    });
    const partCarriedOutBefore: [string, number][] = [
      ['a place is put on hold, and may be used again or not', 0],
      ['something is carried into a fridge, or out of it', 9],
      ['a core is read: low, close to the limit or well', 2],
    ];
    await fc.assert(property, { numRuns: size(6, 30), examples: [[partCarriedOutBefore, true]] });
  });
});
