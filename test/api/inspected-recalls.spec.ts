import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { InspectionView } from '@bakehouse/contracts';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, g, pieces } from '../support/bakehouse.js';
import { Hand } from '../support/hand.js';
import { fileFrom, pagesOf } from '../support/read-papers.js';
import { toldNobody } from '../fixtures/recalls.js';

const shop = { name: 'Harbour Steps', zone: 'Europe/London' };
let t: TestApp;
let b: Bakehouse;
let decides: Hand;
let flour: string;
let recall: string;
beforeAll(async () => {
  t = await startTestApp();
  b = await Bakehouse.found(t, {}, [shop]);
  decides = new Hand(b.lead.house, b.lead.caller, null);
  flour = await b.delivered('flour', at('01:00'), { code: 'M-118' });
  const dough = await b.begun('white', at('02:00'));
  await b.baker.record('weighed-in', { make: dough, lines: [b.into('flour', '5000', flour)] }, { at: at('02:05') });
});
afterAll(() => t.close());

const inspected = async (site = b.site, day = '2026-11-25'): Promise<InspectionView> =>
  (await b.lead.caller.get(`/sites/${site}/inspection?from=${day}&until=${day}`).expect(200)).body as InspectionView;
const pack = async (site = b.site): Promise<string> => {
  const { bytes } = await fileFrom(b.lead.caller, `/sites/${site}/inspection/pack.pdf?from=2026-11-25&until=2026-11-25`);
  return (await pagesOf(bytes)).map((p) => p.text).join(' ');
};

/** Ten pieces of it, of which four were sent to the house's own shop. */
async function sentToShop(lot: string): Promise<string> {
  const customer = b.newId();
  const party = { party: customer, type: 'own-shop' as const, vulnerable: false, unattended: false };
  await b.house.decide({ kind: 'party-accepted', payload: party, words: { name: shop.name }, at: at('00:05') });
  const make = await b.begun('white', at('02:00'));
  await b.baker.record('weighed-in', { make, lines: [b.into('flour', '1000', lot)] }, { at: at('02:05') });
  const run = b.newId();
  const runs = [{ run, product: b.material('bap'), heads: null, scaling: g('45'), pieces: 10 }];
  await b.baker.record('divided', { make, quantity: null, runs, oldDough: null, scrap: null }, { at: at('02:10') });
  const counted = { run, loads: [], pieces: 10, rejects: 0, code: 'BAP-1', bakedOn: '2026-11-25', bestBefore: null, useBy: null };
  const batch = (await b.baker.record('batch-counted-out', counted, { at: at('03:00') })).id;
  const lines = [{ lots: [batch], quantity: pieces(4), how: 'counted' as const }];
  await b.baker.record('sent-out', { channel: 'own-shop', customer, unattended: false, until: null, lines }, { at: at('04:00') });
  return batch;
}

describe('an officer who looks at a site’s records', () => {
  it('is told where there was no recall', async () => {
    expect((await inspected()).recalls).toEqual([]);
    expect(await pack()).toContain('No recall of this period reaches lots of this site.');
  });

  it('sees a recall that reached the site: why, how far, whom it informed, and that it is open', async () => {
    recall = b.newId();
    const body = { id: recall, suspect: [flour], hazard: 'physical', hazardName: 'glass', practice: false, said: 'the mill rang' };
    await b.lead.caller.post('/recalls', body).expect(200);
    for (const answer of ['not-reached', 'told'] as const)
      await decides.record('recall-contact-made', { recall, party: b.party('cafeA'), answer, piecesHeld: null });
    const [seen, ...more] = (await inspected()).recalls;
    expect(more).toEqual([]);
    expect(seen).toMatchObject({
      ...{ id: recall, hazardName: 'glass', practice: false, said: 'the mill rang', openedBy: 'Lee Dehl', closedAt: null },
      suspects: [{ lot: flour, code: 'M-118' }],
      ...{ lots: 2, lotsHere: 2, calls: 2, informed: 1, decisions: [] },
    });
    expect(await pack()).toMatch(/Recalls glass, OPEN.*the mill rang.*1 customer informed, 2 calls.*OPEN/);
  });

  it('sees what was decided in it, by whom, and how it was closed with something on hold', async () => {
    const { undecided } = (await b.lead.caller.get(`/recalls/${recall}`).expect(200)).body;
    const destroyed = { recall, lot: flour, decision: 'destroyed', covers: 'this-alone', quantity: null } as const;
    await decides.record('recall-disposition-decided', destroyed, { words: { why: 'glass' } });
    const left = undecided.map((l: { lot: string }) => l.lot).filter((lot: string) => lot !== flour);
    await decides.record(
      'recall-closed',
      { recall, staysOnHold: left, notReached: [] },
      { words: { ...toldNobody, conclusion: 'done', why: 'to be sieved' } },
    );
    const [seen] = (await inspected()).recalls;
    expect(seen).toMatchObject({ closedAt: expect.any(String), closedBy: 'Lee Dehl', whyOnHold: 'to be sieved' });
    expect(seen?.decisions).toMatchObject([{ lot: flour, decision: 'destroyed', by: 'Lee Dehl', code: 'M-118' }]);
    expect(await pack()).toMatch(/closed [^.]*Lee Dehl.*to be sieved.*Destroyed/);
  });

  it('does not see it at a site that it does not reach, nor in a time before it', async () => {
    const sites = (await b.lead.caller.get('/me').expect(200)).body.sites as { id: string; name: string }[];
    const other = sites.find((s) => s.name === shop.name)?.id ?? '';
    expect((await inspected(other)).recalls).toEqual([]);
    expect((await inspected(b.site, '2026-11-20')).recalls).toEqual([]);
  });

  it('sees it at the shop that food of it was sent to, with what was decided about that, and what else of it came there', async () => {
    const steps = b.house.created.sites[1] ?? '';
    const rye = await b.delivered('flour', at('01:00'), { code: 'M-119' });
    const batch = await sentToShop(rye);
    const id = b.newId();
    const body = { id, suspect: [rye], hazard: 'physical', hazardName: 'steel wire', practice: false, said: 'found some' };
    await b.lead.caller.post('/recalls', body).expect(200);
    const destroyed = { recall: id, lot: batch, decision: 'destroyed', covers: 'this-alone', quantity: pieces(2) } as const;
    await decides.record('recall-disposition-decided', destroyed, { words: { why: 'wire' } });
    const { recalls, checks } = await inspected(steps);
    expect(recalls).toMatchObject([{ id, lotsHere: 1, suspects: [], decisions: [{ lot: batch, decision: 'destroyed', pieces: 2 }] }]);
    expect(recalls[0]?.lots).toBeGreaterThan(1);
    expect(checks.onHold.map((h) => h.lot)).toEqual([batch]);
    const paper = await pack(steps);
    expect(paper).toContain('steel wire');
    expect(paper).not.toContain('No recall of this period');
    const count = { lot: rye, place: null, quantity: g('100') };
    await new Hand(b.house, b.lead.caller, steps).record('lot-counted', count, { at: at('05:00') });
    expect((await inspected(steps)).recalls).toMatchObject([{ lotsHere: 2, suspects: [{ lot: rye, code: 'M-119' }] }]);
  });
});
