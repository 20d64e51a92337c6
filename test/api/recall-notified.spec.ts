import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { InspectionView, RecallView } from '@bakehouse/contracts';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse } from '../support/bakehouse.js';
import { Hand } from '../support/hand.js';
import { nutsWeek } from '../support/nuts-week.js';
import type { Caller } from '../support/people.js';
import { fileFrom, pagesOf } from '../support/read-papers.js';

const nobody = 'Nobody has recorded that the authority was told. Ring your local food-safety authority first.';
const told = { spokeTo: 'the duty officer', reference: 'FSA-4471', said: 'hold everything until the laboratory answers' };
const clock = new SettableClock(at('14:00'));
let t: TestApp;
let b: Bakehouse;
let decides: Hand;
let almond: string;
beforeAll(async () => {
  t = await startTestApp({ clock });
  b = await Bakehouse.found(t);
  ({ almond } = await nutsWeek(b));
  decides = new Hand(b.lead.house, b.lead.caller, null);
});
afterAll(() => t.close());

async function opened(practice: boolean): Promise<string> {
  const id = b.newId();
  const body = { id, suspect: [almond], hazard: 'microbiological', hazardName: practice ? 'Metal' : 'Salmonella', practice };
  await b.lead.caller.post('/recalls', body).expect(200);
  return id;
}
const seen = async (recall: string, caller: Caller = b.lead.caller): Promise<RecallView> =>
  (await caller.get(`/recalls/${recall}`).expect(200)).body as RecallView;
const textOf = async (path: string): Promise<string> =>
  (await pagesOf((await fileFrom(b.lead.caller, path)).bytes))
    .map((p) => p.text)
    .join(' ')
    .replace(/\s+/g, ' ');
const inspected = async (): Promise<InspectionView> =>
  (await b.lead.caller.get(`/sites/${b.site}/inspection?from=2026-11-25&until=2026-11-25`).expect(200)).body as InspectionView;

describe('that the authority was told of a recall, and the public', () => {
  let recall: string;
  beforeAll(async () => {
    recall = await opened(false);
  });

  it('is said to be recorded by nobody, until somebody does', async () => {
    expect((await seen(recall)).notified).toEqual([]);
    expect(await textOf(`/recalls/${recall}/papers/recall.pdf`)).toContain(nobody);
    expect(await textOf(`/sites/${b.site}/inspection/pack.pdf?from=2026-11-25&until=2026-11-25`)).toContain(
      'Authority: not recorded as told',
    );
  });

  it('stands in the case with when, how, the reference and by whom', async () => {
    await decides.record('recall-notified', { recall, to: 'authority', how: 'telephone' }, { words: told, at: at('13:10') });
    await decides.record(
      'recall-notified',
      { recall, to: 'public', how: 'notice-at-shop' },
      { words: { said: 'on the door' }, at: at('13:40') },
    );
    expect((await seen(recall)).notified).toMatchObject([
      { to: 'authority', how: 'telephone', at: new Date(at('13:10')).toISOString(), by: 'Lee Dehl', ...told },
      { to: 'public', how: 'notice-at-shop', by: 'Lee Dehl', reference: null, said: 'on the door' },
    ]);
  });

  it('names whom they spoke to only to those who see the names of contacts', async () => {
    const { notified } = await seen(recall, await b.house.signedOn('Lou Kerr', ['viewer']));
    expect(notified[0]).toMatchObject({ to: 'authority', reference: told.reference, spokeTo: null, said: null });
  });

  it('is printed with the case, and shown to an officer without the names', async () => {
    const paper = await textOf(`/recalls/${recall}/papers/recall.pdf`);
    expect(paper).not.toContain(nobody);
    for (const text of ['Authority informed', told.reference, told.spokeTo, `“${told.said}”`, 'Public notice', '“on the door”'])
      expect(paper).toContain(text);
    const { recalls } = await inspected();
    expect(recalls.find((r) => r.id === recall)?.notified).toMatchObject([
      { to: 'authority', reference: told.reference },
      { to: 'public' },
    ]);
    expect(JSON.stringify(recalls)).not.toContain(told.spokeTo);
    const pack = await textOf(`/sites/${b.site}/inspection/pack.pdf?from=2026-11-25&until=2026-11-25`);
    expect(pack).toMatch(/Authority informed [^.]*reference FSA-4471/);
    expect(pack).not.toContain('Authority: not recorded as told');
  });

  it('is recorded by those alone who decide in a recall, of a case that there is', async () => {
    const payload = { recall, to: 'authority', how: 'telephone' } as const;
    const baker = new Hand(b.house, b.baker.caller, null);
    expect(await baker.refused('recall-notified', payload)).toMatchObject({ problem: 'not-permitted' });
    expect(await decides.refused('recall-notified', { ...payload, recall: b.newId() })).toMatchObject({ problem: 'unknown-recall' });
  });

  it('is corrected, and withdrawn where it was not so', async () => {
    const id = await opened(false);
    const payload = { recall: id, to: 'authority', how: 'telephone' } as const;
    const first = await decides.record('recall-notified', payload, { words: { reference: 'X-1' } });
    const corrected = { corrects: first.id, words: { reference: 'X-2', reason: 'misheard' } };
    await decides.record('recall-notified', { ...payload, how: 'e-mail' }, corrected);
    expect((await seen(id)).notified).toMatchObject([{ id: first.id, how: 'e-mail', reference: 'X-2' }]);
    await decides.record('entry-withdrawn', {}, { corrects: first.id, words: { reason: 'it was another case' } });
    expect((await seen(id)).notified).toEqual([]);
  });

  it('is practised: the record stands in the practice, whose paper says so', async () => {
    const practice = await opened(true);
    await decides.record('recall-notified', { recall: practice, to: 'authority', how: 'telephone' });
    expect(await seen(practice)).toMatchObject({ practice: true, notified: [{ to: 'authority' }] });
    const paper = await textOf(`/recalls/${practice}/papers/recall.pdf`);
    expect(paper).toMatch(/PRACTICE. NOT A REAL RECALL.*Authority informed/);
  });
});

describe('a real case that is closed', () => {
  const words = { conclusion: 'the importer confirmed it', why: 'burnt on Friday' };
  const reasons = { whyNoNotice: 'it went to cafés alone', whyNotReached: 'the school is shut until Monday' };
  let recall: string;
  let view: RecallView;
  beforeAll(async () => {
    recall = await opened(false);
    const customers = (await seen(recall)).notReached;
    for (const { party } of customers)
      if (party !== b.party('school'))
        await decides.record('recall-contact-made', { recall, party, answer: 'told', piecesHeld: null }, { at: at('13:50') });
    view = await seen(recall);
  });
  const close = async (given: Readonly<Record<string, string>>) => {
    const payload = { recall, staysOnHold: view.undecided.map((l) => l.lot), notReached: view.notReached.map((c) => c.party) };
    const entry = b.lead.house.entry({ kind: 'recall-closed', payload, words: { ...words, ...given }, at: at('13:55') });
    const [result] = await decides.send([await b.lead.caller.signed(entry)]);
    return result;
  };

  it('lists who was not reached, with their names', () => {
    expect(view.notReached).toEqual([{ party: b.party('school'), name: 'Primary school' }]);
  });

  it('asks why the authority, the public and a customer were not told, each in words', async () => {
    const whyAuthorityNotTold = 'the importer told it';
    for (const [given, field] of [
      [reasons, 'whyAuthorityNotTold'],
      [{ ...reasons, whyAuthorityNotTold, whyNoNotice: ' ' }, 'whyNoNotice'],
      [{ whyNoNotice: reasons.whyNoNotice, whyAuthorityNotTold }, 'whyNotReached'],
    ] as const)
      expect(await close(given)).toMatchObject({ as: 'refused', problem: 'malformed', field: `words.${field}` });
    expect(await close({ ...reasons, whyAuthorityNotTold })).toMatchObject({ as: 'recorded' });
    expect((await seen(recall)).closedOver).toEqual({
      ...{ notTold: ['authority', 'public'], whyAuthorityNotTold, ...reasons },
      notReached: [{ party: b.party('school'), name: 'Primary school' }],
    });
  });

  it('says over what it was closed on its paper, and to an officer without the customer', async () => {
    const sentences = [
      'Closed without the authority being recorded as told: “the importer told it”',
      `Closed without a notice to the public being recorded: “${reasons.whyNoNotice}”`,
    ];
    const unreached = (who: string) => `Not reached when it was closed: ${who}. “${reasons.whyNotReached}”`;
    const paper = await textOf(`/recalls/${recall}/papers/recall.pdf`);
    for (const text of [...sentences, unreached('Primary school')]) expect(paper).toContain(text);
    const { recalls } = await inspected();
    expect(recalls.find((r) => r.id === recall)?.closedOver).toMatchObject({ notReached: 1, whyNotReached: reasons.whyNotReached });
    const pack = await textOf(`/sites/${b.site}/inspection/pack.pdf?from=2026-11-25&until=2026-11-25`);
    for (const text of [...sentences, unreached('1 customer')]) expect(pack).toContain(text);
    expect(pack).not.toContain('Primary school');
  });

  it('takes a call that reached somebody afterwards, and stays closed over what it was closed over', async () => {
    clock.set(at('14:05'));
    const answered = { recall, party: b.party('school'), answer: 'told', piecesHeld: 2 } as const;
    await decides.record('recall-contact-made', answered, { at: at('14:04') });
    const after = await seen(recall);
    expect(after.notReached).toEqual([]);
    expect(after.closedOver?.notReached).toMatchObject([{ name: 'Primary school' }]);
    const contact = after.trace.contacts.find((c) => c.party === b.party('school'));
    expect([contact?.reached, contact?.calls.every((c) => c.at >= (after.closedAt ?? ''))]).toEqual([true, true]);
    const contacts = await textOf(`/recalls/${recall}/papers/contacts.pdf`);
    expect(contacts.match(/after the case was closed/g)).toHaveLength(1);
  });
});

describe('a case that is closed as a practice', () => {
  it('is asked for none of it', async () => {
    const recall = await opened(true);
    await decides.record('recall-closed', { recall, staysOnHold: [], notReached: [] }, { words: { conclusion: 'went well' } });
    expect(await seen(recall)).toMatchObject({ closedAt: expect.any(String), closedOver: null });
  });
});
