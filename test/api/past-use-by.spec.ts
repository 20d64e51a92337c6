import { openThings } from '@bakehouse/contracts';
import { inStock, lookupOf, onHandOf } from '@bakehouse/views';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, g } from '../support/bakehouse.js';

const now = '2026-11-25T09:00:00.000Z';

/** Almonds to be used by yesterday and by today, some that are all used, and baps with a use-by date that is over: nobody used or sent any of it late. */
describe('what stands past its use-by date', () => {
  let t: TestApp;
  let b: Bakehouse;
  let late: string;
  let today: string;
  let batch: string;
  beforeAll(async () => {
    t = await startTestApp({ clock: new SettableClock(now) });
    b = await Bakehouse.found(t);
    late = await b.delivered('almond', at('01:00', '2026-11-20'), { useBy: '2026-11-24' });
    today = await b.delivered('almond', at('01:00', '2026-11-20'), { useBy: '2026-11-25' });
    const gone = await b.delivered('almond', at('01:00', '2026-11-20'), { useBy: '2026-11-24' });
    await b.baker.record('lot-counted', { lot: gone, place: null, quantity: g('0') }, { at: at('02:00', '2026-11-22') });
    const make = await b.begun('white', at('01:00', '2026-11-22'));
    const flour = await b.delivered('flour', at('00:10', '2026-11-20'));
    await b.baker.record('weighed-in', { make, lines: [b.into('flour', '1900', flour)] }, { at: at('01:05', '2026-11-22') });
    const run = b.newId();
    const runs = [{ run, product: b.material('bap'), heads: null, scaling: g('75'), pieces: 20 }];
    await b.baker.record('divided', { make, quantity: null, runs, oldDough: null, scrap: null }, { at: at('01:10', '2026-11-22') });
    const counted = { run, loads: [], pieces: 20, rejects: 0, code: 'BAP-1', bakedOn: '2026-11-22', bestBefore: null, useBy: '2026-11-23' };
    batch = (await b.baker.record('batch-counted-out', counted, { at: at('02:00', '2026-11-22') })).id;
  });
  afterAll(() => t.close());

  it('is on the list of what waits for somebody, without what is gone and what may be used today', async () => {
    const { pastUseBy, held } = openThings.parse((await b.lead.caller.get(`/sites/${b.site}/open`).expect(200)).body);
    expect(pastUseBy.map((l) => [l.lot, l.name, l.useBy, l.trouble])).toEqual([
      [batch, 'bap', '2026-11-23', 'expired-lot-used'],
      [late, expect.any(String), '2026-11-24', 'expired-lot-used'],
    ]);
    expect(held).toEqual([]);
  });

  it('says so where it is offered on a tablet, to be used or sent out', async () => {
    const lookup = lookupOf(await b.night(), now, 'Europe/London', b.site);
    expect(onHandOf(lookup).flatMap((p) => p.lots.map((l) => [l.id, l.trouble]))).toEqual([[batch, 'expired-lot-used']]);
    const stock = new Map(inStock(lookup).map((l) => [l.id, l.trouble]));
    expect([stock.get(late), stock.get(today)]).toEqual(['expired-lot-used', null]);
  });
});
