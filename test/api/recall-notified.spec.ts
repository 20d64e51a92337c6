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
let t: TestApp;
let b: Bakehouse;
let decides: Hand;
let almond: string;
beforeAll(async () => {
  t = await startTestApp({ clock: new SettableClock(at('14:00')) });
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
