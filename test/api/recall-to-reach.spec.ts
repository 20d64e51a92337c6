import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { inspectionView, recallList, recallView } from '@bakehouse/contracts';
import { startTestApp, type TestApp } from '../support/app.js';
import { Bakehouse } from '../support/bakehouse.js';
import { Hand } from '../support/hand.js';
import { nutsWeek } from '../support/nuts-week.js';
import { fileFrom, pagesOf } from '../support/read-papers.js';
import { RunningClock } from '../support/running-clock.js';

let t: TestApp;
let b: Bakehouse;
let almond: string;
beforeAll(async () => {
  t = await startTestApp({ clock: new RunningClock('2026-11-25T14:00:00Z') });
  b = await Bakehouse.found(t);
  ({ almond } = await nutsWeek(b));
});
afterAll(() => t.close());

const opened = async (practice: boolean): Promise<string> => {
  const id = b.newId();
  const body = { id, suspect: [almond], hazard: 'physical', hazardName: 'glass', practice, said: '' };
  await b.lead.caller.post('/recalls', body).expect(200);
  return id;
};
const shown = async (id: string) => recallView.parse((await b.lead.caller.get(`/recalls/${id}`).expect(200)).body);
const listed = async (id: string) => recallList.parse((await b.lead.caller.get('/recalls').expect(200)).body).find((c) => c.id === id);
const days = 'from=2026-11-25&until=2026-11-25';
const inspected = async (id: string) =>
  inspectionView.parse((await b.lead.caller.get(`/sites/${b.site}/inspection?${days}`).expect(200)).body).recalls.find((r) => r.id === id);

describe.each([
  ['a recall', false],
  ['a practice', true],
])('how many customers %s has still to reach', (_, practice) => {
  it('is in the list of cases and on the officer’s page and paper, as the case itself has it, and goes down by whom a call told alone', async () => {
    const id = await opened(practice);
    const { contacts } = (await shown(id)).trace;
    expect(contacts.length).toBeGreaterThan(3);
    expect([(await listed(id))?.toReach, (await inspected(id))?.toReach]).toEqual([contacts.length, contacts.length]);
    const [first, second] = contacts;
    const decides = new Hand(b.house, b.lead.caller, null);
    const call = (party = '', answer: 'told' | 'message-left') =>
      decides.record('recall-contact-made', { recall: id, party, answer, piecesHeld: null });
    await call(first?.party, 'message-left');
    await call(second?.party, 'told');
    await call(second?.party, 'told');
    const left = contacts.length - 1;
    expect((await shown(id)).notReached).toHaveLength(left);
    expect([(await listed(id))?.toReach, (await inspected(id))?.toReach]).toEqual([left, left]);
    const { bytes } = await fileFrom(b.lead.caller, `/sites/${b.site}/inspection/pack.pdf?${days}`);
    const text = (await pagesOf(bytes)).map((p) => p.text).join(' ');
    expect(text).toContain(`${left} customers still to be reached`);
  });
});
