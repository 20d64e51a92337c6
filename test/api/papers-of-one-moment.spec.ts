import { afterAll, beforeAll, describe, expect, it, jest } from '@jest/globals';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { Tenancy } from '../../apps/api/src/platform/database/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, g, pieces } from '../support/bakehouse.js';
import { fileFrom, sheetsOf } from '../support/read-papers.js';

/** Twenty baps of suspect flour. While a paper of the case is made, one of them leaves whenever anything was read for it. */
describe('a paper of a recall', () => {
  let t: TestApp;
  let b: Bakehouse;
  let recall: string;
  let batch: string;
  beforeAll(async () => {
    t = await startTestApp({ clock: new SettableClock('2026-11-25T09:00:00Z') });
    b = await Bakehouse.found(t);
    const flour = await b.delivered('flour', at('00:10'));
    const make = await b.begun('white', at('01:00'));
    await b.baker.record('weighed-in', { make, lines: [b.into('flour', '1900', flour)] }, { at: at('01:05') });
    const run = b.newId();
    const runs = [{ run, product: b.material('bap'), heads: null, scaling: g('75'), pieces: 20 }];
    await b.baker.record('divided', { make, quantity: null, runs, oldDough: null, scrap: null }, { at: at('01:10') });
    const counted = { run, loads: [], pieces: 20, rejects: 0, code: 'BAP-1', bakedOn: '2026-11-25', bestBefore: null, useBy: null };
    batch = (await b.baker.record('batch-counted-out', counted, { at: at('02:00') })).id;
    await sent(2);
    recall = b.newId();
    const opened = { id: recall, suspect: [batch], hazard: 'physical', hazardName: 'glass', practice: false, said: '' };
    await b.lead.caller.post('/recalls', opened).expect(200);
  });
  afterAll(() => t.close());

  const sent = (count: number) => {
    const lines = [{ lots: [batch], quantity: pieces(count), how: 'counted' as const }];
    const trip = { channel: 'dispatch' as const, customer: b.party('cafeA'), unattended: false, until: null, lines };
    return b.baker.record('sent-out', trip, { at: at('05:00') });
  };
  async function sheetsWhileItLeaves(): Promise<ReturnType<typeof sheetsOf>> {
    const tenancy = t.app.get(Tenancy, { strict: false });
    const reading = tenancy.reading.bind(tenancy);
    let left = 0;
    const between = jest.spyOn(tenancy, 'reading').mockImplementation(async (organisation, work) => {
      const found = await reading(organisation, work);
      if (left < 6) {
        left += 1;
        await sent(1);
      }
      return found;
    });
    try {
      return sheetsOf((await fileFrom(b.lead.caller, `/recalls/${recall}/papers/recall.xlsx`)).bytes);
    } finally {
      between.mockRestore();
      expect(left).toBeGreaterThan(0);
    }
  }

  it('lists what left as of the moment of its balances, whatever is recorded while it is made', async () => {
    const sheets = await sheetsWhileItLeaves();
    const column = (name: string, title: string): unknown[] => {
      const sheet = sheets.find((s) => s.name === name);
      return sheet?.rows.map((row) => row[sheet.head.indexOf(title)]?.value) ?? [];
    };
    const [gone] = column('Balances', 'Used and dispatched');
    const each = column('Used and dispatched', 'Quantity').map(Number);
    expect(each.length).toBeGreaterThan(0);
    expect(each.reduce((sum, n) => sum + n, 0)).toBe(gone);
  });
});
