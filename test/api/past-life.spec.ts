import type { PayloadFor } from '@bakehouse/records';
import { openThings } from '@bakehouse/contracts';
import { inStock, inUseView, lookupOf } from '@bakehouse/views';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, g } from '../support/bakehouse.js';
import { OneTruth } from '../support/one-truth.js';
import { heldPastLife, pastLifeActions, planOfLives } from '../support/past-life-actions.js';

const now = '2026-11-25T09:00:00.000Z';
const day = '2026-11-25';
const opening = 'the flour is opened, long before it is used or just then';

/** Flour that keeps an hour once opened, and a dough that keeps an hour: held by the plan past that, or only warned of. */
describe.each(['hold', 'warn'] as const)('past its life where the plan says %s', (rule) => {
  let t: TestApp;
  let b: Bakehouse;
  let white: string;
  let bread: Awaited<ReturnType<typeof baked>>;
  beforeAll(async () => {
    t = await startTestApp({ clock: new SettableClock(now) });
    b = await Bakehouse.found(t);
    white = await heldPastLife(b, rule);
  });
  beforeEach(async () => {
    bread = await baked();
  });
  afterAll(() => t.close());
  const holds = rule === 'hold';
  const tell = async (what: string, n: number): Promise<unknown> => pastLifeActions(() => b)[what]?.(bread, n, []);

  async function baked() {
    const flour = await b.delivered('flour', at('00:30'));
    const begun = { formulaVersion: white, station: b.place('mixer'), plan: b.plan, bakeDay: day, plannedMg: null };
    const make = (await b.baker.record('make-begun', begun, { at: at('02:30') })).id;
    await b.baker.record('weighed-in', { make, lines: [b.into('flour', '5600', flour)] }, { at: at('02:31') });
    const run = b.newId();
    const runs = [{ run, product: b.material('bap'), heads: null, pieces: 12, scaling: g('75') }];
    await b.baker.record('divided', { make, quantity: null, oldDough: null, scrap: null, runs }, { at: at('03:20') });
    const out = { run, loads: [], pieces: 12, rejects: 0, code: `B-${run.slice(-6)}`, bakedOn: day, bestBefore: null, useBy: null };
    const batch = (await b.baker.record('batch-counted-out', out, { at: at('05:00') })).id;
    return { flour, make, run, batch };
  }
  const lists = async () => {
    const truth = await OneTruth.of(b, now);
    const tablet = await truth.isTheTablets();
    await truth.isTheLists();
    await truth.isTheOfficersAndTheCounters(tablet);
    await truth.isTheTraces(bread.flour);
    return { truth, tablet };
  };
  const typesOf = (truth: OneTruth, lot: string): string[] => (truth.standings.get(lot)?.concerns ?? []).map((c) => c.type);

  it('a sack that is open too long is told everywhere, from that moment and without a record of it', async () => {
    await tell(opening, 1);
    const { truth, tablet } = await lists();
    expect(typesOf(truth, bread.flour)).toEqual(holds ? ['past-life'] : []);
    expect(typesOf(truth, bread.batch)).toEqual([]);
    expect(inStock(tablet).find((l) => l.id === bread.flour)?.trouble).toBe(holds ? 'held-lot-used' : null);
    expect(inUseView(tablet).find((u) => u.lot === bread.flour)).toMatchObject({ openTooLong: true });
    const then = lookupOf(await b.night(), new Date(at('03:20')).toISOString(), 'Europe/London', b.site);
    expect(inUseView(then).find((u) => u.lot === bread.flour)).toMatchObject({ openTooLong: false, trouble: null });
    const { held } = openThings.parse((await b.lead.caller.get(`/sites/${b.site}/open`).expect(200)).body);
    expect(held.some((h) => h.lot === bread.flour)).toBe(holds);
  });

  it('what it was used in is on hold once a late record says that it was open, on every list, and is not released by rule', async () => {
    const late = await b.lead.record('released-by-exception', { batch: bread.batch }, { at: at('05:30'), words: { why: 'tasted' } });
    expect(late.outcome.findings).not.toContainEqual(expect.objectContaining({ code: 'used-past-life' }));
    await tell(opening, 0);
    const { truth } = await lists();
    expect(typesOf(truth, bread.batch)).toEqual(holds ? ['used-past-life'] : []);
    if (holds) expect((await b.night()).release.some((r) => r.batch === bread.batch)).toBe(true);
    const [refused] = await b.baker.send([
      b.house.entry({ kind: 'released-by-rule', payload: { batch: (await baked()).batch }, at: at('08:00') }),
    ]);
    expect(refused).toMatchObject({ as: 'refused' });
  });

  it('is free once somebody has decided about it, signed', async () => {
    await tell('the dough is ended, past its life when it is divided or not', 0);
    await tell(opening, 0);
    const what = { subjectType: 'lot', subject: bread.flour, class: 'process-check', holds: false } as const;
    const { id: deviation } = await b.lead.record('deviation-reported', what, { at: at('07:00'), words: { what: 'open too long' } });
    const decide = (lot: string | null) =>
      b.lead.record(
        'disposition-decided',
        { deviation, lot, disposition: 'accepted-for-use', covers: 'what-came-of-it', concerns: [], quantity: null },
        { at: at('08:30'), words: { note: 'looked at' } },
      );
    expect(typesOf((await lists()).truth, bread.batch)).toEqual(holds ? ['used-past-life'] : []);
    await decide(null);
    const { truth } = await lists();
    expect([typesOf(truth, bread.flour), typesOf(truth, bread.batch)]).toEqual([[], []]);
  });

  it('is free where it was used, once a decision about that food names what holds it', async () => {
    await tell(opening, 0);
    const what = { subjectType: 'batch', subject: bread.batch, class: 'process-check', holds: false } as const;
    const { id: deviation } = await b.lead.record('deviation-reported', what, { at: at('07:00'), words: { what: 'looked at' } });
    const held = async () => (await OneTruth.of(b, now)).standings.get(bread.batch)?.concerns ?? [];
    const decide = async (concerns: string[]) => {
      const payload = { deviation, lot: null, disposition: 'accepted-for-use', covers: 'this-alone', concerns, quantity: null } as const;
      return b.lead.record('disposition-decided', { ...payload, concerns }, { at: at('08:30') });
    };
    await decide([]);
    expect((await held()).map((c) => c.type)).toEqual(holds ? ['used-past-life'] : []);
    await decide((await held()).map((c) => c.id));
    const { truth } = await lists();
    expect(typesOf(truth, bread.batch)).toEqual([]);
    expect(typesOf(truth, bread.flour)).toEqual(holds ? ['past-life'] : []);
    const { body } = await b.lead.caller.get(`/sites/${b.site}/inspection?from=${day}&until=${day}`).expect(200);
    const told = body.deviations.find((d: { id: string }) => d.id === deviation).disposition;
    const also = holds ? [{ code: 'used-past-life', what: expect.stringMatching(/h after it was opened$/) }] : [];
    expect(told.map((d: { also: unknown }) => d.also)).toEqual(expect.arrayContaining([[], also]));
  });

  it('a use that is recorded when it was past opens a deviation, whatever the plan says', async () => {
    const next = (
      await b.baker.record(
        'make-begun',
        { formulaVersion: white, station: b.place('mixer'), plan: b.plan, bakeDay: day, plannedMg: null },
        { at: at('04:00') },
      )
    ).id;
    const line = { ...b.into('flour', '900', bread.make), type: 'rework' as const };
    const { outcome } = await b.baker.record('weighed-in', { make: next, lines: [line] }, { at: at('04:01') });
    expect(outcome.lines.map((l) => l.trouble)).toEqual(['past-life-used']);
    // it is over its own hour by now, too
    expect(typesOf((await lists()).truth, next)).toEqual(holds ? ['past-life', 'used-past-life'] : []);
  });

  it('so does a use of what is open too long; another sack of it may be opened', async () => {
    const lot = bread.flour;
    const opened = { material: b.material('flour'), lot, beside: true };
    await b.baker.record('lot-opened', { ...opened, station: b.place('mixer') }, { at: at('04:02') });
    const use = async (time: string) =>
      (await b.baker.record('weighed-in', { make: bread.make, lines: [b.into('flour', '10', lot)] }, { at: at(time) })).outcome;
    expect((await use('05:02')).lines.map((l) => l.trouble)).toEqual([null]);
    expect((await use('05:03')).lines.map((l) => l.trouble)).toEqual(['past-life-used']);
    const { outcome } = await b.baker.record('lot-opened', { ...opened, station: b.place('mixer') }, { at: at('05:04') });
    expect(outcome.trouble).toBe(holds ? 'past-life-used' : null);
    expect((await use('05:05')).lines.map((l) => l.trouble)).toEqual([null]);
  });
});

it('what a plan put on hold stays so on every list once a signed version only warns, until somebody decides', async () => {
  const t = await startTestApp({ clock: new SettableClock(now) });
  try {
    const b = await Bakehouse.found(t);
    await heldPastLife(b, 'hold');
    const flour = await b.delivered('flour', at('00:30'));
    const opened = { station: b.place('mixer'), material: b.material('flour'), lot: flour, beside: true };
    await b.baker.record('lot-opened', opened, { at: at('02:20') });
    const isHeld = async (): Promise<boolean> =>
      openThings.parse((await b.lead.caller.get(`/sites/${b.site}/open`).expect(200)).body).held.some((h) => h.lot === flour);
    await planOfLives(b, 'warn', at('06:00'));
    expect(await isHeld()).toBe(true);
    const truth = await OneTruth.of(b, now);
    await truth.isTheOfficersAndTheCounters(await truth.isTheTablets());
    const what = { subjectType: 'lot', subject: flour, class: 'process-check', holds: false } as const;
    const { id: deviation } = await b.lead.record('deviation-reported', what, { at: at('07:00'), words: { what: 'open too long' } });
    const accepted: PayloadFor<'disposition-decided'> = {
      deviation,
      lot: null,
      disposition: 'accepted-for-use',
      covers: 'this-alone',
      concerns: [],
      quantity: null,
    };
    await b.lead.record('disposition-decided', accepted, { at: at('08:30'), words: { note: 'looked at' } });
    expect(await isHeld()).toBe(false);
  } finally {
    await t.close();
  }
});
