import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { inACase } from '../simulation/nights/cases.js';
import { Night, type World } from '../simulation/nights/facts.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse } from '../support/bakehouse.js';
import { Hand } from '../support/hand.js';
import { OneTruth } from '../support/one-truth.js';
import { mulberry } from '../support/seeded.js';
import { size } from '../support/size.js';

const now = '2026-11-25T09:00:00.000Z';
const [nights, things] = [size(3, 60), 36];

describe('what is said of a lot after a random night', () => {
  let t: TestApp;
  let b: Bakehouse;
  let [thermometer, tub] = ['', ''];
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

  /** A night is recorded, and a case opened on a lot of it that something was made of. */
  async function recorded(seed: number): Promise<{ lots: readonly string[]; recall: string }> {
    const night = new Night(mulberry(seed), 1, world());
    for (let i = 0; i < things; i += 1) night.next();
    // Cases are opened by the route, which traces them first.
    const entries = night.facts.filter((f) => !inACase(f)).map((f) => b.house.entry(f.entry));
    const results = await b.lead.send(entries);
    expect(results.filter((r) => r.as !== 'recorded')).toEqual([]);
    const recall = b.newId();
    const suspect = night.lots.slice(0, 1);
    const of = { id: recall, suspect, hazard: 'physical', hazardName: 'glass', practice: false, said: '' };
    await b.lead.caller.post('/recalls', of).expect(200);
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
    await truth.areTheAmounts(tablet, lots);
    await truth.isTheCases(recall);
  });
});
