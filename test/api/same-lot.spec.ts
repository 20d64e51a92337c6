import { afterAll, beforeAll, expect, it } from '@jest/globals';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, g } from '../support/bakehouse.js';

let t: TestApp;
let b: Bakehouse;
beforeAll(async () => {
  t = await startTestApp();
  b = await Bakehouse.found(t);
});
afterAll(() => t.close());

it('adds up a lot over what turned out to be it: goods of a code that was to come, and a line that nobody could name', async () => {
  const lot = await b.delivered('flour', at('01:00'));
  const porch = await b.delivered('flour', at('01:10'), { code: null, codeState: 'not-known-yet', quantity: g('10000') });
  const make = await b.begun('white', at('02:00'));
  const lines = [b.into('flour', '2000'), b.into('flour', '4000', porch), b.into('flour', '1000', lot)];
  const { outcome } = await b.baker.record('weighed-in', { make, lines }, { at: at('02:05') });
  for (const one of [porch, outcome.lines[0]?.lot ?? ''])
    await b.baker.record('lot-identified', { lot: one, code: null, same: lot, delivery: null }, { at: at('03:00') });
  const counted = await b.baker.record('lot-counted', { lot, place: null, quantity: g('27500') }, { at: at('04:00') });
  expect(counted.outcome.difference).toBe(-500_000);
  const { body } = await b.lead.caller.get(`/lots/${lot}/trace?hazard=physical`).expect(200);
  expect(body.suspectBalances).toMatchObject([
    { lots: [lot], balance: { received: 35_000_000, gone: 7_000_000, onHand: { amount: 27_500_000, by: 'count' }, unaccounted: 500_000 } },
  ]);
  expect(body.doesNotAddUp.map((l: { lots: string[] }) => l.lots)).toEqual([[lot]]);
});
