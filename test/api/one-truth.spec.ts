import type { PayloadFor } from '@bakehouse/records';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { inACase } from '../simulation/nights/cases.js';
import type { Fact, World } from '../simulation/nights/facts.js';
import { NightOfAllergens } from '../simulation/nights/of-allergens.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { AmountsExpected } from '../support/amounts-expected.js';
import { at, Bakehouse } from '../support/bakehouse.js';
import { catalogue, formulasOf, type Material } from '../support/bakehouse-data.js';
import { ContentsExpected, type Said } from '../support/contents-expected.js';
import { Hand } from '../support/hand.js';
import { OneTruth } from '../support/one-truth.js';
import { mulberry } from '../support/seeded.js';
import { size } from '../support/size.js';
import { UsedByRecord } from '../support/used-by-record.js';
import { saidFromTheBeginning, WhatIsInIt } from '../support/what-is-in-it.js';

const now = '2026-11-25T09:00:00.000Z';
const approved = '2026-11-01T08:00:00.000Z';
const utc = (time: string): string => new Date(at(time)).toISOString();
const [nights, things] = [size(3, 60), 36];

describe('what is said of a lot after a random night', () => {
  let t: TestApp;
  let b: Bakehouse;
  let [thermometer, tub, unchecked] = ['', '', ''];
  const facts: Fact[] = [];
  const said: Said[] = [];
  let inIt: WhatIsInIt;
  beforeAll(async () => {
    t = await startTestApp({ clock: new SettableClock(now) });
    b = await Bakehouse.found(t);
    thermometer = await b.probeInUse();
    tub = (
      await new Hand(b.house, b.house.administrator).record(
        'place-in-use',
        { name: 'Flour tub', type: 'vessel', within: null },
        { at: at('00:10') },
      )
    ).id;
    const recipes = formulasOf(b.ids).map(([key, , , content]) => ({ key, content }));
    inIt = new WhatIsInIt(b, now, recipes, approved);
    said.push(...saidFromTheBeginning(b, approved));
    // Nobody checked what is in the seeds, and the flour is said to have more in it when some of it had come.
    unchecked = b.newId();
    await accept({ ...catalogue.flour, name: 'mixed seeds', flour: false, contains: ['sesame'], checked: null }, unchecked, utc('01:00'));
    await accept({ ...catalogue.flour, mayContain: ['soybeans'] }, b.material('flour'), utc('04:00'));
  });
  afterAll(() => t.close());

  const world = (): World => ({
    flour: b.material('flour'),
    tin: b.material('tin'),
    formulas: [b.formula('white'), b.formula('treacle')],
    mixer: b.place('mixer'),
    oven: b.place('deckOven'),
    tub,
    plan: b.plan,
    tinCore: b.point('tin-core'),
    thermometer,
    newId: () => b.newId(),
  });

  async function accept(of: Omit<PayloadFor<'specification-accepted'>, 'material'>, material: string, since: string): Promise<void> {
    await b.house.decide({ kind: 'specification-accepted', at: since, payload: { ...of, material } });
    said.push({ material, since, contains: of.contains, mayContain: of.mayContain, checkedOn: of.checked?.on ?? null });
  }

  /** A night is recorded, and a case opened on a lot of it that something was made of. */
  async function recorded(seed: number): Promise<{ lots: readonly string[]; recall: string }> {
    const of = (...keys: readonly Material[]): string[] => keys.map((key) => b.material(key));
    const larder = { others: [unchecked, ...of('almond', 'egg', 'sugar')], products: [of('tin', 'bloomer', 'bap'), of('tart')] };
    const night = new NightOfAllergens(mulberry(seed), larder, world());
    for (let i = 0; i < things; i += 1) night.next();
    night.finish();
    // All nights are of one date: each has seconds of its own, so that nothing of one shares its instant with another's.
    const later = (time: string): string => new Date(Date.parse(time) + seed * 1000).toISOString();
    const told = night.facts.map((f) => ({ ...f, entry: { ...f.entry, at: later(f.entry.at) } }));
    // Cases are opened by the route, which traces them first.
    const entries = told.filter((f) => !inACase(f)).map((f) => b.house.entry(f.entry));
    const results = await b.lead.send(entries);
    expect(results.filter((r) => r.as !== 'recorded')).toEqual([]);
    facts.push(...told);
    const recall = b.newId();
    const suspect = night.lots.slice(0, 1);
    const opened = { id: recall, suspect, hazard: 'physical', hazardName: 'glass', practice: false, said: '' };
    await b.lead.caller.post('/recalls', opened).expect(200);
    return { lots: night.lots, recall };
  }

  it.each(Array.from({ length: nights }, (_, i) => i + 1))('is the same everywhere, seed %i', async (seed) => {
    const { lots, recall } = await recorded(seed);
    const [suspect = ''] = lots;
    const truth = await OneTruth.of(b, now);
    expect(truth.held.size).toBeGreaterThan(0);

    const tablet = await truth.isTheTablets();
    const there = tablet.snapshot.lot.map((l) => l.id);
    for (const lot of lots) if (truth.held.has(lot)) expect(there).toContain(lot);
    await truth.isTheLists();
    await truth.isTheOfficersAndTheCounters(tablet);
    await truth.isTheTraces(suspect);
    await truth.areTheAmounts(new AmountsExpected(facts), tablet, { lots, recall });
    await truth.isTheCases(recall);

    const used = new UsedByRecord(facts);
    const contents = new ContentsExpected(
      used,
      said,
      formulasOf(b.ids).map(([, , , content]) => content),
      now,
    );
    await inIt.isTheLots(used, contents);
    await inIt.isTheCounters(used, contents);
    await inIt.isTheOffices(contents);
  });

  it('met every answer that can be given about an allergen', () => {
    expect([...inIt.answers].sort()).toEqual(['contains', 'may-contain', 'not', 'unknown']);
  });
});
