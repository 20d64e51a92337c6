import { counterView, deliveries, inspectionView, openThings, recallView, traceView } from '@bakehouse/contracts';
import { inStock, lookupOf, onHandOf, batchesOf, type Standing } from '@bakehouse/views';
import { surelyGone } from '@bakehouse/records';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { standingOf } from '../../apps/api/src/modules/standing/index.js';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { Tenancy } from '../../apps/api/src/platform/database/index.js';
import { Books } from '../../apps/api/src/platform/ledger/index.js';
import { Night, type World } from '../simulation/nights/facts.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { Bakehouse } from '../support/bakehouse.js';
import { Hand } from '../support/hand.js';
import { mulberry } from '../support/seeded.js';
import { size } from '../support/size.js';

const now = '2026-11-25T09:00:00.000Z';
const [nights, things] = [size(3, 60), 36];
const ids = (concerns: readonly { readonly id: string }[]): string[] => concerns.map((c) => c.id).sort();

describe('what is said of a lot after a random night', () => {
  let t: TestApp;
  let b: Bakehouse;
  let thermometer: string;
  beforeAll(async () => {
    t = await startTestApp({ clock: new SettableClock(now) });
    b = await Bakehouse.found(t);
    const administrator = new Hand(b.house, b.house.administrator);
    thermometer = (await administrator.record('instrument-in-use', { name: 'P7', type: 'probe', unit: 'degC', halfWidth: '0.5' })).id;
  });
  afterAll(() => t.close());

  const world = (): World => ({
    flour: b.material('flour'),
    tin: b.material('tin'),
    formulas: [b.formula('white'), b.formula('treacle')],
    mixer: b.place('mixer'),
    oven: b.place('deckOven'),
    plan: b.plan,
    tinCore: b.point('tin-core'),
    thermometer,
    newId: () => b.newId(),
  });

  /** A night is recorded, and a case opened on a lot of it that something was made of. */
  async function recorded(seed: number): Promise<{ lots: readonly string[]; recall: string }> {
    const night = new Night(mulberry(seed), 1, world());
    for (let i = 0; i < things; i += 1) night.next();
    const entries = night.facts.map((f) => b.house.entry(f.entry));
    const results = await b.lead.send(entries);
    expect(results.filter((r) => r.as !== 'recorded')).toEqual([]);
    const recall = b.newId();
    const suspect = night.lots.slice(0, 1);
    const of = { id: recall, suspect, hazard: 'physical', hazardName: 'glass', practice: false, said: '' };
    await b.lead.caller.post('/recalls', of).expect(200);
    return { lots: night.lots, recall };
  }

  /** The one truth: how every lot of the house stands, by the rules that the door decides with. */
  async function truth(): Promise<ReadonlyMap<string, Standing>> {
    const books = await t.app.get(Books, { strict: false }).all(b.house.organisation);
    return t.app.get(Tenancy, { strict: false }).inOrganisation(b.house.organisation, async (client) => {
      const { rows } = await client.query<{ id: string }>('SELECT id FROM lot WHERE organisation = $1', [b.house.organisation]);
      return (await standingOf(client, books, rows.map((r) => r.id), now)).standings; // prettier-ignore
    });
  }
  const get = async (path: string): Promise<unknown> => (await b.lead.caller.get(path).expect(200)).body;
  const onHold = (standings: ReadonlyMap<string, Standing>): Map<string, string[]> =>
    new Map([...standings].flatMap(([lot, s]) => (!s.gone && s.concerns.length > 0 ? [[lot, ids(s.concerns)] as const] : [])));
  const inOrder = (map: ReadonlyMap<string, unknown>): unknown[] => [...map].sort(([x], [y]) => (x < y ? -1 : 1));

  it.each(Array.from({ length: nights }, (_, i) => i + 1))('is the same everywhere, seed %i', async (seed) => {
    const { lots, recall } = await recorded(seed);
    const standings = await truth();
    const held = onHold(standings);
    expect(held.size).toBeGreaterThan(0);
    const concernsOf = (lot: string): string[] => ids(standings.get(lot)?.concerns ?? []);

    // the tablet, off line from here on
    const lookup = lookupOf(await b.night(), now, 'Europe/London', b.site);
    const there = lookup.snapshot.lot.map((l) => l.id);
    for (const lot of there)
      expect([lot, surelyGone(lookup.state, lot, now), ids((lookup.concerns.get(lot) ?? []).map((r) => r.concern))]).toEqual([
        lot,
        standings.get(lot)?.gone,
        concernsOf(lot),
      ]);
    for (const lot of lots) if (held.has(lot)) expect(there).toContain(lot);
    for (const l of inStock(lookup)) expect([l.id, l.trouble !== null]).toEqual([l.id, concernsOf(l.id).length > 0]);
    const batches = batchesOf(lookup, '2026-11-25');
    for (const { id, release } of batches) expect([id, release.state === 'on-hold']).toEqual([id, concernsOf(id).length > 0]);
    for (const l of onHandOf(lookup).flatMap((p) => p.lots))
      expect([l.id, l.trouble !== null]).toEqual([l.id, concernsOf(l.id).length > 0]);

    // the lists of the house
    const open = openThings.parse(await get(`/sites/${b.site}/open`));
    expect(inOrder(new Map(open.held.map((h) => [h.lot, ids(h.concerns)])))).toEqual(inOrder(held));
    for (const line of deliveries.parse(await get(`/sites/${b.site}/deliveries`)).flatMap((d) => d.lines))
      expect([line.lot, ids(line.concerns)]).toEqual([line.lot, concernsOf(line.lot)]);

    // the officer and the counter
    const inspected = inspectionView.parse(await get(`/sites/${b.site}/inspection?from=2026-11-25&until=2026-11-25`));
    expect(inspected.batches.map((x) => x.id).sort()).toEqual(batches.map((x) => x.id).sort());
    for (const { id, standing } of inspected.batches) expect([id, standing === 'on-hold']).toEqual([id, held.has(id)]);
    const counter = counterView.parse(await get(`/counter/${b.site}`));
    for (const p of counter.products)
      expect([p.product, p.onHold]).toEqual([p.product, batches.some((x) => x.product === p.product && held.has(x.id))]);

    // the trace, the case and its paper
    const [suspect] = lots;
    const trace = traceView.parse(await get(`/lots/${suspect}/trace?direction=forward`));
    for (const l of trace.onHand) expect([l.lot, ids(l.concerns)]).toEqual([l.lot, concernsOf(l.lot)]);
    const view = recallView.parse(await get(`/recalls/${recall}`));
    const byCase = [...held].flatMap(([lot, of]) => (of.includes(recall) ? [lot] : [])).sort();
    expect(view.undecided.map((u) => u.lot).sort()).toEqual(byCase);
    expect(view.held).toBe(byCase.length);
    for (const l of view.trace.onHand) expect([l.lot, ids(l.concerns)]).toEqual([l.lot, concernsOf(l.lot)]);
    for (const lot of byCase) expect(view.trace.onHand.map((l) => l.lot)).toContain(lot);
  });
});
