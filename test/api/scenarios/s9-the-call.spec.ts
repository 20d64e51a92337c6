import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { RecallView, TraceView } from '@bakehouse/contracts';
import { snapshotOf } from '@bakehouse/records';
import { lookupOf, troubleOn } from '@bakehouse/views';
import { SettableClock } from '../../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../../support/app.js';
import { Bakehouse } from '../../support/bakehouse.js';
import type { Party } from '../../support/bakehouse-data.js';
import { nutsWeek, type NutsWeek } from '../../support/nuts-week.js';
import { verified } from '../../support/verified.js';

/** At 14:00 the importer calls: ground almond lot A77, Salmonella. Figures of the trade's notes, S9. */
describe('the call', () => {
  let t: TestApp;
  let b: Bakehouse;
  let week: NutsWeek;
  let recall: RecallView;
  let trace: TraceView;

  beforeAll(async () => {
    t = await startTestApp({ clock: new SettableClock('2026-11-25T14:00:00Z') });
    b = await Bakehouse.found(t);
    week = await nutsWeek(b);
    const { body: found } = await b.lead.caller.get('/lots?words=A77').expect(200);
    const ask = {
      id: b.newId(),
      suspect: [found[0].id],
      hazard: 'microbiological',
      hazardName: 'Salmonella',
      practice: false,
      said: 'ground almond, lot A77',
    };
    const { body } = await b.lead.caller.post('/recalls', ask).expect(200);
    recall = body as RecallView; // the route's contract
    trace = recall.trace;
  });
  afterAll(() => t.close());

  it('finds the lot by its code, and everything that it went into', () => {
    expect(recall).toMatchObject({
      hazard: 'microbiological',
      hazardName: 'Salmonella',
      practice: false,
      said: 'ground almond, lot A77',
      closedAt: null,
    });
    const certain = (type: string) => trace.lots.filter((l) => l.type === type && l.certain);
    expect(certain('received').map((l) => [l.id, l.code])).toEqual([[week.almond, 'A77']]);
    expect([certain('made').length, certain('run').length, certain('batch').length]).toEqual([14, 7, 7]);
    expect(trace.rule).toMatch(/does not dilute/);
  });

  it('accounts for 12,500 g: 7 × 1,000 used, 50 sampled, 5,360 counted; 99.28 %, 90 g not found, the likely cause on top', () => {
    const [suspect] = trace.suspectBalances;
    expect(suspect?.balance).toMatchObject({
      measure: 'mg',
      received: 12_500_000,
      gone: 7_050_000,
      onHand: { amount: 5_360_000, by: 'count' },
      unaccounted: 90_000,
      accountedBasisPoints: 9928,
      finding: 'not-all-accounted',
    });
    expect(suspect?.balance.likelyCauses).toEqual([
      { cause: 'by-recipe', amount: 7_000_000, times: 7 },
      { cause: 'weighed', amount: 50_000, times: 1 },
    ]);
    expect(trace.doesNotAddUp.flatMap((d) => d.lots)).toEqual([week.almond]);
  });

  it('accounts for 560 tartlets: 14 rejected; 212 counter, 180 cafés, 60 stall, 72 freezer, 6 samples, 16 donated', () => {
    const batches = new Set(week.batches);
    const sum = (channel: string) =>
      trace.ends.filter((e) => e.channel === channel && e.lots.some((lot) => batches.has(lot))).reduce((n, e) => n + (e.pieces ?? 0), 0);
    expect(['counter', 'dispatch', 'stall', 'sample', 'donation'].map(sum)).toEqual([212, 180, 60, 6, 16]);
    const frozen = trace.onHand.filter((o) => batches.has(o.lot));
    expect(frozen.map((o) => [o.amount, o.measure])).toEqual([[72, 'pieces']]);
    const rejected = trace.ends.filter((e) => e.channel === 'waste' && e.pieces !== null).reduce((n, e) => n + (e.pieces ?? 0), 0);
    expect([rejected, trace.lots.filter((l) => batches.has(l.id)).reduce((n, l) => n + (l.pieces ?? 0), 0)]).toEqual([14, 546]);
  });

  it('holds first what is in the house: 5,360 g and 72 tartlets cannot leave', async () => {
    expect(
      trace.onHand
        .filter((o) => o.lot === week.almond || week.batches.includes(o.lot))
        .map((o) => o.amount ?? -1)
        .sort((x, y) => x - y),
    ).toEqual([72, 5_360_000]);
    expect(trace.onHand.every((o) => o.concerns.some((c) => c.id === recall.id))).toBe(true);
    expect(recall.held).toBe(trace.onHand.length);
    // every tablet says the same of the same lots, from its own rows
    const night = lookupOf(snapshotOf(await b.night()), '2026-11-25T15:00:00.000Z', 'Europe/London');
    expect(trace.onHand.map((o) => [o.name, troubleOn(night, o.lot)])).toEqual(trace.onHand.map((o) => [o.name, 'held-lot-used']));
    const [freezer = ''] = trace.onHand.filter((o) => week.batches.includes(o.lot)).map((o) => o.lot);
    const free = b.house.entry({ kind: 'released-by-exception', payload: { batch: freezer }, words: { why: 'looks good' } });
    const { body: signature } = await b.lead.caller.post('/signatures', { pin: b.lead.caller.pin, entry: free }).expect(200);
    expect(await b.lead.send([{ ...free, send: { signature: signature.signature } }])).toMatchObject([
      { as: 'refused', problem: 'held-by-recall' },
    ]);
  });

  it('gives the contact list: food bank and school on top, unattended drops marked, with what each has', () => {
    const name = new Map<string, Party>(
      (['foodBank', 'school', 'cafeA', 'cafeB', 'cafeC', 'cafeD', 'nuts', 'eggVan'] as const).map((p) => [b.party(p), p]),
    );
    const list = trace.contacts.map((e) => [name.get(e.party), e.pieces, e.certain, e.unattended]);
    expect(list.slice(0, 2)).toEqual([
      ['foodBank', 16, true, false],
      ['school', 15, false, false],
    ]);
    expect(
      list
        .slice(2)
        .map(([who]) => who)
        .sort(),
    ).toEqual(['cafeA', 'cafeB', 'cafeC', 'cafeD']);
    expect(list.filter(([who]) => who === 'cafeD')).toEqual([['cafeD', 45, true, true]]);
    expect(trace.contacts.every((e) => e.phone !== null && e.contactName !== null && e.why !== '')).toBe(true);
    expect(list).toHaveLength(6);
  });

  it('shows when it stood on the counter and when the stall sold some, for those whom nobody can name', () => {
    expect(
      trace.counter.filter((w) => w.lots.some((lot) => week.batches.includes(lot))).map((w) => [w.way, w.pieces, w.until !== null]),
    ).toEqual([
      ['counter', 78, true],
      ['counter', 78, true],
      ['counter', 56, true],
      ['stall', 54, true],
      ['stall', 6, true],
    ]);
  });

  it('takes what the same bowls made until the next clean-down as possible, and nothing after it', () => {
    const lot = (id: string) => trace.lots.find((l) => l.id === id);
    expect(lot(week.beforeCleanDown)).toMatchObject({ certain: false, by: { type: 'contact' } });
    expect(lot(week.afterCleanDown)).toBeUndefined();
    expect(lot(week.elsewhere)).toBeUndefined();
  });

  it('shows the heat step with its evidence and is not cleared by it: every baked tartlet is in scope, certainly', async () => {
    const steps = trace.heat.steps.filter((h) => week.batches.includes(h.lot));
    expect(steps.map((h) => [h.figure, h.unit, h.seconds, h.verdict, h.limit])).toEqual(
      Array(7).fill(['76.2', 'degC', 30, 'within', { type: 'range', min: '75', max: null, unit: 'degC' }]),
    );
    expect(steps.every((h) => h.basis !== '')).toBe(true);
    expect(trace.heat.note).toMatch(/clears no lot/);
    expect(week.batches.every((id) => trace.lots.some((l) => l.id === id && l.certain))).toBe(true);
    const { body } = await b.lead.caller.get(`/lots/${week.almond}/trace?hazard=physical`).expect(200);
    expect(body.heat).toEqual({ steps: [], note: null }); // an oven does nothing to glass
  });

  it('freezes the scope with its hash and says what changed since', async () => {
    expect(recall).toMatchObject({
      scopeLots: trace.lots.length,
      changedSince: { added: [], gone: [], notHeld: [] },
      scopeHash: trace.scopeHash,
    });
    const { lot } = await week.oneMoreBatch();
    const { body } = await b.lead.caller.get(`/recalls/${recall.id}`).expect(200);
    expect(body.changedSince.added).toContain(lot);
    // what is made of it afterwards is held by the case from the moment it is on record; nobody has to put it there
    expect(body.changedSince.notHeld).toEqual([]);
    const here = body.trace.onHand.find((o: { lot: string }) => o.lot === lot);
    expect(here.concerns.map((c: { id: string }) => c.id)).toContain(recall.id);
    expect(troubleOn(lookupOf(snapshotOf(await b.night()), '2026-11-25T15:00:00.000Z', 'Europe/London'), lot)).toBe('held-lot-used');
    await b.baker.caller.post(`/recalls/${recall.id}/extend`).expect(403);
    expect(body.scopeHash).toBe(recall.scopeHash);
    const { faults } = await verified(t, b.house);
    expect(faults).toEqual([]);
  });
});
