import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { RecallView } from '@bakehouse/contracts';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse } from '../support/bakehouse.js';
import type { Caller } from '../support/people.js';
import { Hand } from '../support/hand.js';
import { nutsWeek } from '../support/nuts-week.js';
import { fileFrom, pagesOf } from '../support/read-papers.js';
import { toldNobody } from '../fixtures/recalls.js';

const answered = 'the cook, she rings back about 3 tubs';
const conclusion = 'importer confirmed by mail, all customers told';
let t: TestApp;
let b: Bakehouse;
let recall: string;
beforeAll(async () => {
  t = await startTestApp({ clock: new SettableClock(at('14:00')) });
  b = await Bakehouse.found(t);
  const { almond } = await nutsWeek(b);
  const decides = new Hand(b.lead.house, b.lead.caller, null);
  recall = b.newId();
  const opened = { id: recall, suspect: [almond], hazard: 'microbiological', hazardName: 'Salmonella', practice: false };
  const { undecided, notReached } = (await b.lead.caller.post('/recalls', opened).expect(200)).body as RecallView;
  const call = { recall, party: b.party('school'), piecesHeld: null } as const;
  await decides.record('recall-contact-made', { ...call, answer: 'not-reached' });
  await decides.record('recall-contact-made', { ...call, answer: 'told' }, { words: { said: answered } });
  const staysOnHold = undecided.map((l) => l.lot);
  const left = notReached.flatMap((c) => (c.party === b.party('school') ? [] : c.party));
  const words = { ...toldNobody, conclusion, why: 'burnt on Friday', whyNotReached: 'closed for the holidays' };
  await decides.record('recall-closed', { recall, staysOnHold, notReached: left }, { words });
});
afterAll(() => t.close());

const seen = async (caller: Caller): Promise<RecallView> => (await caller.get(`/recalls/${recall}`).expect(200)).body as RecallView;
const saidIn = ({ trace }: Pick<RecallView, 'trace'>) => trace.contacts.flatMap((e) => e.calls.map((c) => c.said));

describe('what was written down in a recall case', () => {
  it('is read with the case: what a contact said beside that call, and what was found and done', async () => {
    const view = await seen(b.lead.caller);
    expect(saidIn(view)).toEqual([null, answered]);
    expect(view.trace.contacts.find((e) => e.party === b.party('school'))?.calls).toMatchObject([{ said: null }, { said: answered }]);
    expect(view.conclusion).toBe(conclusion);
  });

  it('is read on the page of the suspected lot too', async () => {
    const { suspects } = (await seen(b.lead.caller)).trace;
    const { body } = await b.lead.caller.get(`/lots/${suspects[0]}/trace`).expect(200);
    expect(saidIn({ trace: body })).toEqual([null, answered]);
  });

  it('is printed with the case', async () => {
    const { bytes } = await fileFrom(b.lead.caller, `/recalls/${recall}/papers/recall.pdf`);
    const text = (await pagesOf(bytes))
      .map((p) => p.text)
      .join(' ')
      .replace(/\s+/g, ' ');
    expect(text).toContain(`What was found and done: “${conclusion}”`);
    expect(text).toContain(`“${answered}”`);
    expect((await b.lead.caller.get(`/recalls/${recall}/papers/recall.json`).expect(200)).body.recall.conclusion).toBe(conclusion);
  });

  it('names whom they spoke to only to those who see the names of contacts', async () => {
    const view = await seen(await b.house.signedOn('Lou Kerr', ['viewer']));
    expect(view.trace.contactsShown).toBe(false);
    expect(saidIn(view)).toEqual([null, null]);
    expect(view.conclusion).toBe(conclusion);
  });
});
