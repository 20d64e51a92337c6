import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { KindName, PayloadFor } from '@bakehouse/records';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse } from '../support/bakehouse.js';
import type { EntryOptions } from '../support/entries.js';
import { Hand } from '../support/hand.js';
import { toldNobody } from '../fixtures/recalls.js';

let t: TestApp;
let b: Bakehouse;
let decides: Hand;
let flour: string;
let dough: string;
let recall: string;
beforeAll(async () => {
  t = await startTestApp();
  b = await Bakehouse.found(t);
  decides = new Hand(b.lead.house, b.lead.caller, null);
  flour = await b.delivered('flour', at('01:00'));
  dough = await b.begun('white', at('02:00'));
  await b.baker.record('weighed-in', { make: dough, lines: [b.into('flour', '5000', flour)] }, { at: at('02:05') });
  recall = b.newId();
  await b.lead.caller
    .post('/recalls', { id: recall, suspect: [flour], hazard: 'physical', hazardName: 'glass', practice: false })
    .expect(200);
});
afterAll(() => t.close());

const theCase = async () => (await b.lead.caller.get(`/recalls/${recall}`).expect(200)).body;
const onHand = async (lot: string) => (await theCase()).trace.onHand.find((o: { lot: string }) => o.lot === lot);
const destroy = (lot: string, kg: string | null) =>
  decides.record(
    'recall-disposition-decided',
    { recall, lot, decision: 'destroyed', covers: 'this-alone', quantity: kg === null ? null : { figure: kg, unit: 'kg' } },
    { words: { why: 'glass' } },
  );
/** What a signed entry meets at the door. */
async function refusedSigned<K extends KindName>(kind: K, payload: PayloadFor<K>, options: EntryOptions = {}) {
  const entry = b.lead.house.entry({ kind, payload, ...options });
  const { body } = await b.lead.caller.post('/signatures', { pin: b.lead.caller.pin, entry }).expect(200);
  const [result] = await decides.send([{ ...entry, send: { signature: body.signature } }]);
  return result;
}

describe('what a case destroyed', () => {
  it('in parts is off what is in the house and among what left, and the rest is what was left then', async () => {
    const { amount } = await onHand(flour);
    await destroy(flour, '8');
    expect(await onHand(flour)).toMatchObject({ amount: amount - 8_000_000, by: 'records' });
    await destroy(flour, null);
    expect(await onHand(flour)).toBeUndefined();
    const { trace, decisions } = await theCase();
    const ends: { channel: string; mg: number; decided: string }[] = trace.ends;
    expect(ends.map((e) => [e.decided, e.channel, e.mg]).sort()).toEqual([
      ['amount', 'waste', 8_000_000],
      ['rest', 'waste', amount - 8_000_000],
    ]);
    expect(decisions.map((d: { mg: number | null }) => d.mg)).toEqual([8_000_000, null]);
  });

  it('is gone for the tablet of the site too, though it was decided in the book of the organisation', async () => {
    const { rows } = (await b.lead.caller.get(`/sites/${b.site}/night?day=2026-11-25`).expect(200)).body;
    expect(
      rows.departure
        .filter((d: { lot: string }) => d.lot === flour)
        .map((d: { decided: string }) => d.decided)
        .sort(),
    ).toEqual(['amount', 'rest']);
  });
});

describe('more destroyed than there was', () => {
  it('is on the list of what is on hold, with what to do about it', async () => {
    const lot = await b.delivered('flour', at('01:10'));
    const about = { subjectType: 'lot', subject: lot, class: 'ccp', holds: false } as const;
    const { id: deviation } = await b.lead.record('deviation-reported', about, { words: { what: 'rain came in' } });
    const destroyed: Omit<PayloadFor<'disposition-decided'>, 'quantity'> = {
      deviation,
      lot,
      disposition: 'destroyed',
      covers: 'this-alone',
      concerns: [],
    };
    const held = async () =>
      (await b.lead.caller.get(`/sites/${b.site}/open`).expect(200)).body.held.find((h: { lot: string }) => h.lot === lot);
    const { id } = await b.lead.record('disposition-decided', { ...destroyed, quantity: { figure: '30', unit: 'kg' } });
    expect((await held()).concerns).toMatchObject([{ type: 'more-gone-than-there-was', from: lot }]);
    await b.lead.record(
      'disposition-decided',
      { ...destroyed, quantity: { figure: '3', unit: 'kg' } },
      { corrects: id, words: { reason: 'three bags, not thirty' } },
    );
    expect(await held()).toBeUndefined();
  });
});

describe('food that a deviation is not about', () => {
  it('stays in the house: the refusal says what the deviation is about, is kept, and is taken once the record that links them came', async () => {
    const lot = await b.delivered('flour', at('01:20'));
    const make = await b.begun('white', at('01:30'));
    const about = { subjectType: 'lot', subject: lot, class: 'ccp', holds: false } as const;
    const { id: deviation } = await b.lead.record('deviation-reported', about, { words: { what: 'a smell of diesel' } });
    const payload: PayloadFor<'disposition-decided'> = {
      ...{ deviation, lot: make, disposition: 'destroyed', covers: 'this-alone', concerns: [], quantity: null },
    };
    const entry = b.lead.house.entry({ kind: 'disposition-decided', payload });
    const signed = async () => {
      const { body } = await b.lead.caller.post('/signatures', { pin: b.lead.caller.pin, entry }).expect(200);
      const [result] = await b.lead.send([{ ...entry, send: { signature: body.signature } }]);
      return result;
    };
    const gone = async () =>
      (await b.lead.caller.get(`/sites/${b.site}/night?day=2026-11-25`).expect(200)).body.rows.departure.filter(
        (d: { lot: string }) => d.lot === make,
      );
    expect(await signed()).toMatchObject({
      ...{ as: 'refused', problem: 'not-about-this-food', field: 'payload.lot', title: 'This deviation is not about that food' },
      acceptable: expect.stringContaining('strong white flour'),
    });
    expect(await gone()).toEqual([]);
    const { setAside } = (await b.lead.caller.get(`/sites/${b.site}/open`).expect(200)).body;
    expect(setAside).toContainEqual(expect.objectContaining({ as: 'refused', problem: 'not-about-this-food' }));
    await b.baker.record('weighed-in', { make, lines: [b.into('flour', '1000', lot)] }, { at: at('01:35') });
    expect(await signed()).toMatchObject({ as: 'recorded' });
    expect(await gone()).toHaveLength(1);
  });
});

describe('a case that is closed', () => {
  it('says which lots are held and undecided, and is closed once they are stated', async () => {
    const { undecided } = await theCase();
    expect(undecided.map((l: { lot: string }) => l.lot)).toEqual([dough]);
    expect(await refusedSigned('recall-closed', { recall, staysOnHold: [], notReached: [] })).toMatchObject({
      as: 'refused',
      problem: 'undecided-food',
      acceptable: expect.stringContaining('1 lot held and undecided'),
    });
    await decides.record(
      'recall-closed',
      { recall, staysOnHold: [dough], notReached: [] },
      { words: { ...toldNobody, conclusion: 'done', why: 'to be sieved' } },
    );
    expect(await theCase()).toMatchObject({
      held: 1,
      whyOnHold: 'to be sieved',
      closedBy: expect.any(String),
      closedAt: expect.any(String),
    });
  });

  it('is closed once, and says so to a second closing; what stayed on hold is decided on afterwards', async () => {
    const { closedAt } = await theCase();
    expect(
      await refusedSigned('recall-closed', { recall, staysOnHold: [dough], notReached: [] }, { words: { ...toldNobody, why: 'x' } }),
    ).toMatchObject({
      problem: 'already-closed',
      acceptable: expect.stringMatching(/this was closed on \d+ \w+ 2026 by /),
    });
    const decision = await destroy(dough, null);
    expect(decision.outcome).toMatchObject({ closedAt });
    expect(await theCase()).toMatchObject({ held: 0, undecided: [] });
  });
});
