import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { StockLeft } from '@bakehouse/contracts';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, g } from '../support/bakehouse.js';

/** What is left of a sack that came weeks ago: what came less all that was ever taken, as one does it with a pencil. */
describe('what is left in stock', () => {
  let t: TestApp;
  let b: Bakehouse;
  beforeAll(async () => {
    t = await startTestApp({ clock: new SettableClock('2026-11-25T06:00:00Z') });
    b = await Bakehouse.found(t);
  });
  afterAll(() => t.close());

  const left = async (lot: string): Promise<number | null | undefined> => {
    const { lots }: StockLeft = (await b.baker.caller.get(`/sites/${b.site}/stock`).expect(200)).body;
    return lots.find((l) => l.lot === lot)?.leftMg;
  };
  const used = async (lot: string, grams: string, day: string): Promise<void> => {
    const make = await b.begun('white', at('02:00', day));
    await b.baker.record('weighed-in', { make, lines: [b.into('flour', grams, lot)] }, { at: at('02:05', day) });
  };

  it('is what came less what was taken in all the weeks since', async () => {
    const lot = await b.delivered('flour', at('07:00', '2026-11-02'));
    const came = (await left(lot)) ?? 0;
    await used(lot, '5600', '2026-11-04');
    await used(lot, '1250.5', '2026-11-24');
    expect([came, await left(lot)]).toEqual([25_000_000, 25_000_000 - 5_600_000 - 1_250_500]);
  });

  it('begins anew at a count, and is below zero where more was taken than there was', async () => {
    const lot = await b.delivered('flour', at('07:00', '2026-11-03'));
    await b.baker.record('lot-counted', { lot, quantity: g('4000'), place: null }, { at: at('12:00', '2026-11-10') });
    await used(lot, '4100', '2026-11-11');
    expect(await left(lot)).toBe(-100_000);
  });

  it('tells nothing of a lot that nothing is left of, nor of another house', async () => {
    const lot = await b.delivered('flour', at('07:00', '2026-11-05'));
    await b.baker.record('lot-counted', { lot, quantity: g('0'), place: null }, { at: at('12:00', '2026-11-10') });
    expect(await left(lot)).toBeUndefined();
    const other = await Bakehouse.found(t);
    await other.baker.caller.get(`/sites/${b.site}/stock`).expect(422); // a site that is not there
  });
});
