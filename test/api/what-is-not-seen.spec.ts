import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { recallView, traceView, type TraceView } from '@bakehouse/contracts';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, g, pieces } from '../support/bakehouse.js';
import { Hand } from '../support/hand.js';
import type { Caller } from '../support/people.js';

/** A flour of one site that the other baked with as well, and sold some of to a café. */
let t: TestApp;
let b: Bakehouse;
let there: string;
let flour: string;
let [doughThere, batchThere] = ['', ''];
beforeAll(async () => {
  t = await startTestApp({ env: { SEAL_KEY: Buffer.alloc(32, 7).toString('base64') } });
  b = await Bakehouse.found(t, {}, [{ name: 'Harbour Steps', zone: 'Europe/London' }]);
  there = b.house.created.sites[1] ?? '';
  flour = await b.delivered('flour', at('00:10'));
  const atSteps = new Hand(b.house, b.lead.caller, there);
  const begun = { formulaVersion: b.formula('white'), station: null, plan: b.plan, bakeDay: '2026-11-25', plannedMg: null };
  doughThere = (await atSteps.record('make-begun', begun, { at: at('00:20') })).id;
  await atSteps.record('weighed-in', { make: doughThere, lines: [b.into('flour', '5600', flour)] }, { at: at('00:21') });
  const run = b.newId();
  const runs = [{ run, product: b.material('bloomer'), heads: null, pieces: 12, scaling: g('465') }];
  await atSteps.record('divided', { make: doughThere, quantity: null, oldDough: null, scrap: null, runs }, { at: at('00:30') });
  const counted = { run, loads: [], pieces: 12, rejects: 0, code: 'ST-1', bakedOn: '2026-11-25', bestBefore: null, useBy: null };
  batchThere = (await atSteps.record('batch-counted-out', counted, { at: at('00:40') })).id;
  const line = { lots: [batchThere], quantity: pieces(3), how: 'counted' as const };
  const trip = { channel: 'dispatch' as const, customer: b.party('cafeA'), unattended: false, until: null, lines: [line] };
  await atSteps.record('sent-out', trip, { at: at('00:50') });
});
afterAll(() => t.close());

describe('a case that somebody may only see a part of', () => {
  let recall: string;
  let here: Caller;
  beforeAll(async () => {
    here = await b.house.signedOn('Hera Lee', ['food-safety-lead', 'manager'], b.site);
    recall = b.newId();
    const of = { id: recall, suspect: [flour], hazard: 'physical', hazardName: 'glass', practice: false, said: '' };
    await b.lead.caller.post('/recalls', of).expect(200);
  });
  const shown = async (who: Caller) => recallView.parse((await who.get(`/recalls/${recall}`).expect(200)).body);

  it('is compared whole and hidden after: nothing has left its scope, and what is not shown is counted, with where to ask', async () => {
    const [whole, part] = [await shown(b.lead.caller), await shown(here)];
    expect(whole.changedSince).toEqual({ added: [], gone: [], notHeld: [] });
    expect(part.changedSince).toEqual(whole.changedSince);
    expect([part.scopeHash, part.scopeLots, part.held]).toEqual([whole.scopeHash, whole.scopeLots, whole.held]);
    expect(part.trace.lots.map((l) => l.id)).toEqual([flour]);
    expect(part.trace.hidden).toEqual([{ site: 'Harbour Steps', lots: 3 }]);
    expect(part.undecided.filter((u) => u.name === null).map((u) => u.lot)).toEqual([batchThere]);
  });

  it('has no paper for them, which would say that nothing left; they are told whom to ask', async () => {
    const officer = await b.house.signedOn('Ina Spector', ['inspector'], b.site);
    for (const paper of ['recall.pdf', 'notice.pdf', 'contacts.pdf', 'recall.xlsx', 'recall.json']) {
      await b.lead.caller.get(`/recalls/${recall}/papers/${paper}`).expect(200);
      const { body } = await officer.get(`/recalls/${recall}/papers/${paper}`).expect(403);
      expect(body).toMatchObject({
        type: expect.stringMatching(/not-all-visible$/),
        detail: expect.stringContaining('Ask somebody whose role covers every site'),
      });
      await here.get(`/recalls/${recall}/papers/${paper}`).expect(403);
    }
  });
});

describe('whom to ring', () => {
  const numbers = async (who: Caller): Promise<readonly (readonly [string | null, string | null])[]> => {
    const trace: TraceView = traceView.parse((await who.get(`/lots/${flour}/trace`).expect(200)).body);
    expect(trace.contacts.some((c) => c.phone !== null || c.contactName !== null)).toBe(trace.contactsShown);
    return trace.contacts.map((c) => [c.name, c.phone] as const);
  };

  it('is shown to somebody who may call, with their PIN', async () => {
    expect(await numbers(await b.house.signedOn('Bea Kerr', ['baker']))).toEqual([['Café at the lock', '01632 960011']]);
  });

  it('is not shown for a tapped name: nobody knows who stands there', async () => {
    expect(await numbers(b.baker.caller)).toEqual([['Café at the lock', null]]);
  });

  it('is not shown to a baker of one site, who cannot record a call of the house', async () => {
    const baker = await b.house.signedOn('Sid Wright', ['baker'], there);
    const made = { recall: b.newId(), party: b.party('cafeA'), answer: 'told', piecesHeld: null } as const;
    const entry = b.house.entry({ kind: 'recall-contact-made', payload: made });
    await baker
      .post('/organisation/entries', [entry])
      .expect(200)
      .expect((r) => {
        expect(r.body).toMatchObject([{ as: 'refused', problem: 'not-permitted' }]);
      });
    expect(await numbers(baker)).toEqual([['Café at the lock', null]]);
  });
});
