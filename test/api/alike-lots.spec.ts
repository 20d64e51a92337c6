import { recallView, traceView } from '@bakehouse/contracts';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse } from '../support/bakehouse.js';
import { Hand } from '../support/hand.js';
import type { Caller } from '../support/people.js';

/** The supplier's lot 4471 came twice, once to each site, and once more under a code that was found later. */
describe('lots of one code', () => {
  let t: TestApp;
  let b: Bakehouse;
  let there: string;
  beforeAll(async () => {
    t = await startTestApp();
    b = await Bakehouse.found(t, {}, [{ name: 'Harbour Steps', zone: 'Europe/London' }]);
    there = b.house.created.sites[1] ?? '';
  });
  afterAll(() => t.close());

  const traced = async (lot: string, who: Caller = b.lead.caller) =>
    traceView.parse((await who.get(`/lots/${lot}/trace?hazard=physical`).expect(200)).body);
  const deliveredThere = async (code: string, time: string): Promise<string> => {
    const lot = b.newId();
    const lines = [b.line('flour', lot, { code })];
    const payload = { supplier: null, noteNumber: null, photo: null, unattended: false, lines };
    await new Hand(b.house, b.lead.caller, there).record('delivery-received', payload, { at: at(time) });
    return lot;
  };
  const unnamedDough = async (hour: string) => {
    const make = await b.begun('white', at(`${hour}:20`));
    const line = { ...b.into('flour', '1000'), lot: null };
    const { outcome } = await b.baker.record('weighed-in', { make, lines: [line] }, { at: at(`${hour}:21`) });
    return { make, unnamed: outcome.lines[0]?.lot ?? '' };
  };
  const named = (lot: string, of: { code: string | null; same?: string }, time: string) =>
    b.baker.record('lot-identified', { lot, code: of.code, same: of.same ?? null, delivery: null }, { at: at(time) });
  const notIdentified = async (): Promise<string[]> =>
    (await b.baker.caller.get(`/sites/${b.site}/open`).expect(200)).body.notIdentified.map((l: { lot: string }) => l.lot);

  it('name each other, however the code is written; one of another material has nothing to do with it', async () => {
    const one = await b.delivered('flour', at('01:00'), { code: '44-71 A' });
    const two = await b.delivered('flour', at('01:01'), { code: '4471a' });
    await b.delivered('almond', at('01:02'), { code: '4471A' });
    const far = await deliveredThere('44 71-a', '01:03');
    expect((await traced(one)).alike.map((l) => [l.lot, l.code, l.site])).toEqual([
      [far, '44 71-a', 'Harbour Steps'],
      [two, '4471a', 'Mill Lane'],
    ]);
    const here = await b.house.signedOn('Hera Lee', ['manager'], b.site);
    const part = await traced(one, here);
    expect([part.alike.map((l) => l.lot), part.alikeHidden]).toEqual([[two], 1]);
  });

  it('are said by a case that leaves one of them out, and not by one that has them all', async () => {
    const one = await b.delivered('flour', at('02:00'), { code: 'C-2' });
    const two = await b.delivered('flour', at('02:01'), { code: 'C2' });
    const opened = async (suspect: string[]) => {
      const of = { id: b.newId(), suspect, hazard: 'physical', hazardName: 'glass', practice: true };
      return recallView.parse((await b.lead.caller.post('/recalls', of).expect(200)).body).trace.alike.map((l) => l.lot);
    };
    expect(await opened([one])).toEqual([two]);
    expect(await opened([one, two])).toEqual([]);
  });

  it('may each be one whose code alone was found: a trace reaches it as possible, and it stays on the list until it is named', async () => {
    const sacks = [await b.delivered('flour', at('03:00'), { code: 'F 9' }), await b.delivered('flour', at('03:01'), { code: 'F-9' })];
    const other = await b.delivered('flour', at('03:02'), { code: 'F8' });
    const { make, unnamed } = await unnamedDough('03');
    await named(unnamed, { code: 'f9' }, '03:30');
    for (const sack of sacks) expect((await traced(sack)).lots.find((l) => l.id === make)).toMatchObject({ certain: false });
    expect((await traced(other)).lots.map((l) => l.id)).not.toContain(make);
    expect(await notIdentified()).toContain(unnamed);
    const recall = { id: b.newId(), suspect: [sacks[0] ?? ''], hazard: 'physical', hazardName: 'glass', practice: false };
    const { undecided } = recallView.parse((await b.lead.caller.post('/recalls', recall).expect(200)).body);
    expect(undecided.map((u) => u.lot)).toContain(make);
    await named(unnamed, { code: null, same: other }, '03:40');
    expect((await traced(sacks[1] ?? '')).lots.map((l) => l.id)).not.toContain(make);
    expect(await notIdentified()).not.toContain(unnamed);
  });

  it('are no reason to ask again where the code that was found is no other lot’s', async () => {
    const { make, unnamed } = await unnamedDough('04');
    const sack = await b.delivered('flour', at('04:00'), { code: 'G1' });
    await named(unnamed, { code: 'G2' }, '04:30');
    expect((await traced(sack)).lots.map((l) => l.id)).not.toContain(make);
    expect(await notIdentified()).not.toContain(unnamed);
  });
});
