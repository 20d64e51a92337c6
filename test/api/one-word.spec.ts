import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { inACase } from '../simulation/nights/cases.js';
import { NightOfAny } from '../simulation/nights/of-any.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse } from '../support/bakehouse.js';
import { Hand } from '../support/hand.js';
import { OneTruth } from '../support/one-truth.js';
import { mulberry } from '../support/seeded.js';
import { size } from '../support/size.js';

const now = '2026-11-25T09:00:00.000Z';
const [nights, things] = [size(5, 80), 40];

/** Much of these nights was weighed in as one of several lots, and the tub is topped up late. */
describe('whether a lot surely holds what is looked for', () => {
  let t: TestApp;
  let b: Bakehouse;
  let [thermometer, tub] = ['', ''];
  const met = { certain: 0, perhaps: 0 };
  beforeAll(async () => {
    t = await startTestApp({ clock: new SettableClock(now) });
    b = await Bakehouse.found(t);
    thermometer = await b.probeInUse();
    const vessel = { name: 'Flour tub', type: 'vessel', within: null } as const;
    tub = (await new Hand(b.house, b.house.administrator).record('place-in-use', vessel, { at: at('00:10') })).id;
  });
  afterAll(() => t.close());

  async function recorded(seed: number): Promise<void> {
    const night = new NightOfAny(mulberry(seed), 1, {
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
    for (let i = 0; i < things; i += 1) night.next();
    // Cases are opened by the route, which traces them first.
    const entries = night.facts.filter((f) => !inACase(f)).map((f) => b.house.entry(f.entry));
    expect((await b.lead.send(entries)).filter((r) => r.as !== 'recorded')).toEqual([]);
    const opened = { hazard: 'physical', hazardName: 'glass', practice: false, said: '' };
    for (const suspect of [night.lots.slice(0, 1), night.lots.slice(1, 3)])
      await b.lead.caller.post('/recalls', { ...opened, id: b.newId(), suspect }).expect(200);
  }

  it.each(Array.from({ length: nights }, (_, i) => i + 1))('is one word everywhere, seed %i', async (seed) => {
    await recorded(seed);
    const truth = await OneTruth.of(b, now);
    const words = await truth.areTheWords(await truth.isTheTablets());
    met.certain += words.certain;
    met.perhaps += words.perhaps;
  });

  it('was both', () => {
    expect(Math.min(met.certain, met.perhaps)).toBeGreaterThan(20);
  });
});
