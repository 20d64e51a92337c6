import type { RecallView } from '@bakehouse/contracts';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, g, pieces } from '../support/bakehouse.js';
import { fileFrom, pagesOf, sheetsOf } from '../support/read-papers.js';

/**
 * Seventy-five baps in three batches of 25. Of the first 20 stand on the counter, 4 come off and the sale of 16 is written down two minutes later; of the second
 * 10 do, 3 come off and no sale is written down; of the third 5 are on it still. Two of the second went with the van to nobody on the list, six to a café.
 */
describe('what went to people whom nobody can name', () => {
  let t: TestApp;
  let b: Bakehouse;
  let recall: string;
  const theCase = async (): Promise<RecallView> => (await b.owner.caller.get(`/recalls/${recall}`).expect(200)).body;
  const textOf = async (paper: string): Promise<string> =>
    (await pagesOf((await fileFrom(b.owner.caller, `/recalls/${recall}/papers/${paper}`)).bytes)).map((p) => p.text).join(' ');

  beforeAll(async () => {
    t = await startTestApp({ clock: new SettableClock('2026-11-25T18:00:00.000Z') });
    b = await Bakehouse.found(t);
    const flour = await b.delivered('flour', at('00:10'));
    const make = await b.begun('white', at('01:00'));
    await b.baker.record('weighed-in', { make, lines: [b.into('flour', '6000', flour)] }, { at: at('01:05') });
    const runs = ['', '', ''].map(() => ({ run: b.newId(), product: b.material('bap'), heads: null, scaling: g('75'), pieces: 25 }));
    await b.baker.record('divided', { make, quantity: null, runs, oldDough: null, scrap: null }, { at: at('01:10') });
    const batches: string[] = [];
    for (const [i, { run }] of runs.entries()) {
      const counted = { run, loads: [], pieces: 25, rejects: 0, code: `BAP-${i}`, bakedOn: '2026-11-25', bestBefore: null, useBy: null };
      batches.push((await b.baker.record('batch-counted-out', counted, { at: at('02:00') })).id);
    }
    const [first = '', second = '', third = ''] = batches;
    for (const batch of batches)
      await b.lead.record('released-by-exception', { batch }, { at: at('03:00'), words: { why: 'baked through' } });
    const counter = (lot: string, way: 'on' | 'off', count: number, time: string) =>
      b.baker.record('put-on-counter', { lot, way, pieces: count }, { at: at(time) });
    const sent = (channel: 'counter' | 'round', customer: string | null, lot: string, count: number, time: string) =>
      b.baker.record(
        'sent-out',
        { channel, customer, unattended: false, until: null, lines: [{ lots: [lot], quantity: pieces(count), how: 'counted' }] },
        { at: at(time) },
      );
    await sent('round', null, second, 2, '05:00');
    await sent('round', b.party('cafeA'), second, 6, '05:10');
    await counter(first, 'on', 20, '06:50');
    await counter(second, 'on', 10, '07:00');
    await counter(first, 'off', 4, '16:00');
    await sent('counter', null, first, 16, '16:02');
    await counter(second, 'off', 3, '16:10');
    await counter(third, 'on', 5, '16:20');
    recall = b.newId();
    const of = { id: recall, suspect: [flour], hazard: 'physical', hazardName: 'glass', practice: true, said: 'a practice' };
    await b.lead.caller.post('/recalls', of).expect(200);
  });
  afterAll(() => t.close());

  it('is one line a lot with its true time, and each time that nobody was named', async () => {
    const { counter } = (await theCase()).trace;
    expect(counter.map((w) => [w.way, w.code, w.from.slice(11, 16), w.until?.slice(11, 16) ?? null, w.pieces, w.sold])).toEqual([
      ['round', 'BAP-1', '05:00', '05:00', 2, 2],
      ['counter', 'BAP-0', '06:50', '16:00', 16, 16],
      ['counter', 'BAP-1', '07:00', '16:10', 7, 7],
      ['counter', 'BAP-2', '16:20', null, 5, 0],
    ]);
  });

  it('adds up with what has a name and what is here to what was made', async () => {
    const { counter, contacts, onHand, ends } = (await theCase()).trace;
    const sum = (list: readonly (number | null)[]): number => list.reduce<number>((n, one) => n + (one ?? 0), 0);
    const nameless = sum(counter.map((w) => w.sold));
    expect(nameless).toBe(25);
    const here = sum(onHand.filter((o) => o.measure === 'pieces').map((o) => o.amount));
    expect(nameless + sum(contacts.map((c) => c.pieces)) + here).toBe(75);
    expect(sum(ends.map((e) => e.pieces))).toBe(31);
  });

  it('is on the contact list under what no telephone reaches, with what is on the counter still', async () => {
    const text = await textOf('contacts.pdf');
    expect(text).toContain('Sold at the counter: 23 pieces; 5 pieces put out and not recorded as taken off');
    expect(text).toContain('Delivery round: 2 pieces');
    expect(text).not.toContain('none of it went');
  });

  it('is on the paper of the case with the same sums, each piece once, and in distribution with what has a name', async () => {
    const text = await textOf('recall.pdf');
    expect(text).toContain('23 pieces; 5 pieces put out and not recorded as taken off');
    expect(text).toContain('31 pieces certain, 0 pieces possible');
    expect(text.match(/16 pieces/g)).toHaveLength(2); // in its time, and as used and dispatched
    expect(text.match(/nobody\s+said\s+until\s+when/g)).toHaveLength(1); // the round set out at 05:00
  });

  it('is a sheet of its own, with the same sum as what was dispatched to nobody', async () => {
    const sheets = sheetsOf((await fileFrom(b.owner.caller, `/recalls/${recall}/papers/recall.xlsx`)).bytes);
    const column = (name: string, title: string) => {
      const found = sheets.find((s) => s.name.endsWith(name));
      return (found?.rows ?? []).map((r) => r[found?.head.indexOf(title) ?? -1]?.value ?? null);
    };
    expect(column('Nobody can name', 'Went, by the records')).toEqual([2, 16, 7, 0]);
    const to = column('Used and dispatched', 'Immediate next recipient');
    const nobody = column('Used and dispatched', 'Quantity').filter((_, i) => to[i] === null);
    expect(nobody.reduce<number>((n, q) => n + Number(q), 0)).toBe(25);
  });
});
