import type { InspectionView } from '@bakehouse/contracts';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, g } from '../support/bakehouse.js';
import { Hand } from '../support/hand.js';
import { toldNobody } from '../fixtures/recalls.js';

const [before, day, after] = ['2026-11-24', '2026-11-25', '2026-11-26'];
const words = (of: Record<string, string>) => ({ words: of });

/** What was found on one day is decided on another: each day tells what was done on it, however old what that is about. */
describe('the records of one day', () => {
  let t: TestApp;
  let b: Bakehouse;
  let flour: string;
  let second: string;
  const clock = new SettableClock(`${after}T14:00:00.000Z`);
  const ids: Record<string, string> = {};
  beforeAll(async () => {
    t = await startTestApp({ clock });
    b = await Bakehouse.found(t);
    flour = await b.delivered('flour', at('06:00', before), { code: 'M-1' });
    second = await b.delivered('flour', at('06:10', before), { code: 'M-2' });
    const about = { subjectType: 'lot', subject: flour, class: 'ccp', holds: true } as const;
    const report = async (what: string, on: string): Promise<string> =>
      (await b.baker.record('deviation-reported', about, { at: at('08:00', on), ...words({ what }) })).id;
    ids['old'] = await report('moth in the sack', before);
    ids['never'] = await report('sack torn', before);
    const destroyed = {
      deviation: ids['old'],
      lot: null,
      disposition: 'destroyed',
      covers: 'this-alone',
      concerns: [] as string[],
    } as const;
    await b.lead.record(
      'disposition-decided',
      { ...destroyed, quantity: g('500') },
      { at: at('09:00'), ...words({ note: 'moth in the top' }) },
    );
    await b.lead.record(
      'deviation-closed',
      { deviation: ids['old'], staysOnHold: [flour] },
      { at: at('09:30'), ...words({ review: 'sacks are folded shut now', why: 'the rest is to be sieved' }) },
    );
    const hold = async (lot: string, on: string, because: string): Promise<string> =>
      (await b.lead.record('hold-placed', { lot, deviation: null }, { at: at('10:00', on), ...words({ because }) })).id;
    ids['lifted'] = await hold(second, before, 'smells');
    await b.lead.record('hold-lifted', { hold: ids['lifted'] }, { at: at('10:30'), ...words({ why: 'tasted, it is the rye beside it' }) });
    ids['held'] = await hold(second, day, 'wet');
    const fridge = { place: b.place('fridge'), from: at('05:00', before), until: null };
    ids['place'] = (await b.lead.record('place-put-on-hold', fridge, { at: at('06:30', before), ...words({ because: 'door open' }) })).id;
    await b.lead.record('place-hold-ended', { hold: ids['place'] }, { at: at('11:00'), ...words({ why: 'cleaned' }) });
    const waste = { channel: 'waste', customer: null, unattended: false, until: null } as const;
    const line = { lots: [second], quantity: g('300'), how: 'weighed' as const };
    await b.baker.record('sent-out', { ...waste, lines: [line] }, { at: at('12:00'), ...words({ note: 'spilt' }) });
    await b.lead.record(
      'receipt-decided',
      { lot: second, decision: 'refused' },
      { at: at('12:30'), ...words({ condition: 'wet pallet' }) },
    );
  });
  afterAll(() => t.close());

  const told = async (on: string): Promise<InspectionView> =>
    (await b.baker.caller.get(`/sites/${b.site}/inspection?from=${on}&until=${on}`).expect(200)).body as InspectionView;

  it('tells of a deviation on the day that it was opened and on the day that it was closed, with what was decided, by whom and why', async () => {
    expect((await told(before)).deviations.map((d) => d.id).sort()).toEqual([ids['old'], ids['never']].sort());
    const { deviations, counts } = await told(day);
    expect(deviations.map((d) => d.id)).toEqual([ids['old']]);
    expect(deviations[0]).toMatchObject({
      disposition: [{ disposition: 'destroyed', mg: 500_000, signedBy: 'Lee Dehl', note: 'moth in the top' }],
      closed: { by: 'Lee Dehl', review: 'sacks are folded shut now', stayedOnHold: 1, whyOnHold: 'the rest is to be sieved' },
      onHold: true,
    });
    expect((await told(after)).deviations).toEqual([]);
    // It was not opened on that day, and what is still open is counted by itself.
    expect(counts).toMatchObject({ deviations: 0, stillOpen: 0, openFromBefore: 1 });
  });

  it('is told of one deviation by itself as the page of its day tells it, and of none that is not here', async () => {
    const of = (id: string) => b.baker.caller.get(`/sites/${b.site}/inspection/deviations/${id}`);
    const { body } = await of(ids['old'] ?? '').expect(200);
    const [onTheDay] = (await told(day)).deviations;
    expect({ ...body, reading: null, readAgain: [] }).toEqual({ ...onTheDay, reading: null, readAgain: [] });
    expect(body.disposition).toMatchObject([{ signedBy: 'Lee Dehl', note: 'moth in the top', covers: 'this-alone' }]);
    await of(b.newId()).expect(422);
  });

  it('tells of a hold on the day that it began and on the day that it ended, of a place too, with what is left of it and why', async () => {
    const { held, heldPlaces } = (await told(day)).checks;
    expect(held).toMatchObject([
      { id: ids['lifted'], because: 'smells', lifted: { by: 'Lee Dehl', why: 'tasted, it is the rye beside it' } },
      { id: ids['held'], because: 'wet', doneBy: 'Lee Dehl', lifted: null, left: { mg: 24_700_000, pieces: null } },
    ]);
    expect(heldPlaces).toMatchObject([{ id: ids['place'], because: 'door open', ended: { by: 'Lee Dehl', why: 'cleaned' } }]);
    expect((await told(before)).checks.held.map((h) => h.id)).toEqual([ids['lifted']]);
    expect((await told(after)).checks).toMatchObject({ held: [], heldPlaces: [] });
  });

  it('tells what was decided about food, in which words, by whom and why', async () => {
    expect((await told(day)).decisions).toMatchObject([
      {
        ...{ type: 'disposition', decision: 'destroyed', mg: 500_000, food: expect.stringContaining('M-1') },
        ...{ because: 'moth in the sack', why: 'moth in the top', signedBy: 'Lee Dehl' },
      },
      { type: 'decision', decision: 'refused', food: expect.stringContaining('M-2'), because: 'wet pallet' },
    ]);
    expect((await told(before)).decisions).toEqual([]);
  });

  it('tells what was thrown away without a decision, and not once more what was decided', async () => {
    expect((await told(day)).waste).toMatchObject([
      { food: [expect.stringContaining('M-2')], channel: 'waste', mg: 300_000, note: 'spilt', record: 'sent-out', doneBy: 'Bo Baker' },
    ]);
    expect((await told(after)).waste).toEqual([]);
  });

  it('tells what was decided in a recall case that was closed long before', async () => {
    const lead = new Hand(b.house, b.lead.caller, null);
    const recall = b.newId();
    const body = { id: recall, suspect: [second], hazard: 'physical', hazardName: 'glass', practice: false, said: 'the mill rang' };
    await b.lead.caller.post('/recalls', body).expect(200);
    const { undecided } = (await b.lead.caller.get(`/recalls/${recall}`).expect(200)).body as { undecided: { lot: string }[] };
    const stays = { recall, staysOnHold: undecided.map((l) => l.lot), notReached: [] };
    await lead.record('recall-closed', stays, words({ ...toldNobody, conclusion: 'done', why: 'to be collected' }));
    clock.set(`2026-11-27T09:00:00.000Z`);
    await b.signOnAgain();
    const back = { recall, lot: second, decision: 'returned-to-supplier', covers: 'this-alone', quantity: null } as const;
    await new Hand(b.house, b.lead.caller, null).record('recall-disposition-decided', back, words({ why: 'the mill took it' }));
    const { recalls, decisions } = await told('2026-11-27');
    expect(recalls).toEqual([]);
    expect(decisions).toMatchObject([
      { type: 'recallLotDecision', decision: 'returned-to-supplier', because: 'glass', why: 'the mill took it', signedBy: 'Lee Dehl' },
    ]);
  });
});
