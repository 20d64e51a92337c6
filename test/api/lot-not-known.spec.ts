import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse } from '../support/bakehouse.js';

/** A dough of flour that came from one of two sacks, or of both: nobody can say which. */
describe('a lot that nobody knows', () => {
  let t: TestApp;
  let b: Bakehouse;
  beforeAll(async () => {
    t = await startTestApp();
    b = await Bakehouse.found(t);
  });
  afterAll(() => t.close());

  const unnamed = { lot: null };
  async function doughOfOne(hour: string) {
    const time = (minute: string): string => at(`${hour}:${minute}`);
    const sacks = [await b.delivered('flour', time('01')), await b.delivered('flour', time('02'))] as const;
    const make = await b.begun('white', time('05'));
    const line = b.into('flour', '1000', sacks[0]);
    const weighed = await b.baker.record('weighed-in', { make, lines: [{ ...line, ...unnamed }] }, { at: time('06') });
    const later = await b.delivered('flour', time('10'));
    return { sacks, make, line, weighed: weighed.id, later, time };
  }
  const traced = async (lot: string) => {
    const { body } = await b.lead.caller.get(`/lots/${lot}/trace?hazard=physical`).expect(200);
    return body.lots as { id: string; certain: boolean; minPpt: number | null; maxPpt: number | null; by: { type: string } | null }[];
  };
  const made = async (lot: string, make: string) => (await traced(lot)).find((l) => l.id === make);

  it('is perhaps each lot of its material that was there by then, and none that came after it', async () => {
    const n = await doughOfOne('01');
    for (const sack of n.sacks) {
      const lots = await traced(sack);
      expect(lots.find((l) => l.by?.type === 'perhaps')).toMatchObject({ certain: false });
      expect(lots.find((l) => l.id === n.make)).toMatchObject({ certain: false, minPpt: 0, maxPpt: 1_000_000_000_000 });
    }
    expect(await made(n.later, n.make)).toBeUndefined();
  });

  it('is perhaps one that came before and was recorded after it', async () => {
    const n = await doughOfOne('02');
    const late = await b.delivered('flour', n.time('04'));
    expect(await made(late, n.make)).toMatchObject({ certain: false });
  });

  it('is the one that it is named, and none of the others', async () => {
    const n = await doughOfOne('03');
    await b.baker.record(
      'weighed-in',
      { make: n.make, lines: [n.line] },
      { at: n.time('06'), corrects: n.weighed, words: { reason: 'the sack was found' } },
    );
    expect(await made(n.sacks[0], n.make)).toMatchObject({ certain: true });
    expect(await made(n.sacks[1], n.make)).toBeUndefined();
  });

  it('brings the dough, and what is made of it, into a case about one of those lots', async () => {
    const n = await doughOfOne('04');
    const recall = b.newId();
    const asked = { id: recall, suspect: [n.sacks[1]], hazard: 'physical', hazardName: 'glass', practice: false, said: '' };
    const { body } = await b.lead.caller.post('/recalls', asked).expect(200);
    expect(body.undecided.map((l: { lot: string }) => l.lot)).toContain(n.make);
    const next = await b.begun('white', n.time('20'));
    await b.baker.record('weighed-in', { make: next, lines: [b.into('flour', '100', n.make)] }, { at: n.time('21') });
    const again = await b.lead.caller.get(`/recalls/${recall}`).expect(200);
    expect(again.body.undecided.map((l: { lot: string }) => l.lot)).toContain(next);
    expect(again.body.changedSince.notHeld).toEqual([]);
  });
});
