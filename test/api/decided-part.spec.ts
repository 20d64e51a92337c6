import type { InspectionView, RecallView } from '@bakehouse/contracts';
import { foundSinceRelease, lookupOf } from '@bakehouse/views';
import { partText } from '@bakehouse/records';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, g, pieces } from '../support/bakehouse.js';
import { Hand } from '../support/hand.js';
import { fileFrom, pagesOf } from '../support/read-papers.js';
import { soundBatch } from '../support/sound-batch.js';

const now = '2026-11-25T14:00:00.000Z';
const destroyed = '5 pieces destroyed; 7 pieces not decided on';

/** Nobody is told that nobody decided where somebody decided about some of it. */
describe('food of which a part was decided on', () => {
  let t: TestApp;
  let b: Bakehouse;
  let batch: string;
  let recall: string;
  beforeAll(async () => {
    t = await startTestApp({ clock: new SettableClock(now) });
    b = await Bakehouse.found(t);
    const dough = await b.begun('white', at('02:00'));
    const flour = await b.delivered('flour', at('01:00'), { code: 'M-118' });
    await b.baker.record('weighed-in', { make: dough, lines: [b.into('flour', '12000', flour)] }, { at: at('02:05') });
    batch = await released(dough);
    const about = { subjectType: 'batch', subject: batch, class: 'ccp', holds: true } as const;
    const { id: deviation } = await b.baker.record('deviation-reported', about, { at: at('09:00'), words: { what: 'glass' } });
    await b.lead.record(
      'disposition-decided',
      { deviation, lot: batch, disposition: 'destroyed', covers: 'this-alone', concerns: [], quantity: pieces(5) },
      { at: at('09:10'), words: { note: 'the tray beside the lamp' } },
    );
    await b.lead.record(
      'deviation-closed',
      { deviation, staysOnHold: [batch] },
      { at: at('09:20'), words: { review: 'lamp changed', why: 'to be looked through' } },
    );
    recall = b.newId();
    const body = { id: recall, suspect: [flour], hazard: 'physical', hazardName: 'glass', practice: false, said: 'the mill rang' };
    await b.lead.caller.post('/recalls', body).expect(200);
  });
  afterAll(() => t.close());

  /** A batch of 12 pieces of that dough, released by rule. */
  async function released(make: string): Promise<string> {
    const run = b.newId();
    const runs = [{ run, product: b.material('bloomer'), heads: null, pieces: 12, scaling: g('465') }];
    await b.baker.record('divided', { make, quantity: null, runs, oldDough: null, scrap: null }, { at: at('02:40') });
    const id = await soundBatch(b, run);
    await b.baker.record('released-by-rule', { batch: id }, { at: at('04:00') });
    return id;
  }

  it('is on the list of what is on hold with how much was destroyed and how much is left', async () => {
    const page = (await b.lead.caller.get(`/sites/${b.site}/inspection`).expect(200)).body as InspectionView;
    const held = page.checks.onHold.find((h) => h.lot === batch);
    const closed = held?.concerns.find((c) => c.type === 'closed-deviation');
    expect(closed?.part && partText(closed.part)).toBe(destroyed);
  });

  it('is found after release with the same words', async () => {
    const found = foundSinceRelease(lookupOf(await b.night(), now, 'Europe/London', b.site)).find((f) => f.id === batch);
    expect(found?.findings.map((f) => [f.code, f.part && partText(f.part)])).toEqual(
      expect.arrayContaining([
        ['closed-deviation', destroyed],
        ['recall', destroyed],
      ]),
    );
  });

  it('is in the case and on its papers with what is decided in it besides', async () => {
    const view = (await b.lead.caller.get(`/recalls/${recall}`).expect(200)).body as RecallView;
    const here = view.trace.onHand.find((o) => o.lot === batch);
    expect(here?.concerns.map((c) => [c.type, c.part && partText(c.part)])).toEqual(
      expect.arrayContaining([
        ['recall', destroyed],
        ['closed-deviation', destroyed],
      ]),
    );
    const two = { recall, lot: batch, decision: 'destroyed', covers: 'this-alone', quantity: pieces(2) } as const;
    await new Hand(b.house, b.lead.caller, null).record('recall-disposition-decided', two, { words: { why: 'glass in it' } });
    const { bytes } = await fileFrom(b.lead.caller, `/recalls/${recall}/papers/recall.pdf`);
    const text = (await pagesOf(bytes)).map((p) => p.text).join(' ');
    expect(text).toMatch(/7 pieces destroyed; 5 pieces not decided on/);
    expect(text).not.toMatch(/nobody decided/i);
  });

  it('is not told in the case, nor on its papers, to be accepted where another deviation accepted it', async () => {
    const about = { subjectType: 'batch', subject: batch, class: 'ccp', holds: true } as const;
    const { id: deviation } = await b.baker.record('deviation-reported', about, { at: at('10:00'), words: { what: 'mould oil' } });
    await b.lead.record(
      'disposition-decided',
      { deviation, lot: batch, disposition: 'accepted-for-use', covers: 'this-alone', concerns: [], quantity: pieces(2) },
      { at: at('10:10'), words: { note: 'no oil on these' } },
    );
    const view = (await b.lead.caller.get(`/recalls/${recall}`).expect(200)).body as RecallView;
    const concerns = view.trace.onHand.find((o) => o.lot === batch)?.concerns ?? [];
    const said = new Map(concerns.map((c) => [c.id, c.part && partText(c.part)]));
    expect(said.get(deviation)).toMatch(/2 pieces accepted for use/);
    expect(said.get(recall)).toBe('7 pieces destroyed; 5 pieces not decided on');
    const { bytes } = await fileFrom(b.lead.caller, `/recalls/${recall}/papers/recall.pdf`);
    const text = (await pagesOf(bytes)).map((p) => p.text).join(' ');
    expect(text).toMatch(/7 pieces destroyed; 5 pieces not decided on/);
    expect(text).not.toMatch(/accepted for use/);
  });
});
