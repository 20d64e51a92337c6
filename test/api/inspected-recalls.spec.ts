import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { InspectionView } from '@bakehouse/contracts';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse } from '../support/bakehouse.js';
import { Hand } from '../support/hand.js';
import { fileFrom, pagesOf } from '../support/read-papers.js';

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
const pack = async (): Promise<string> => {
  const { bytes } = await fileFrom(b.lead.caller, `/sites/${b.site}/inspection/pack.pdf?from=2026-11-25&until=2026-11-25`);
  return (await pagesOf(bytes)).map((p) => p.text).join(' ');
};

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
    await decides.record('recall-closed', { recall, staysOnHold: left }, { words: { conclusion: 'done', why: 'to be sieved' } });
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
});
