import { openThings, type OpenThings } from '@bakehouse/contracts';
import { lookupOf } from '@bakehouse/views';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, g } from '../support/bakehouse.js';
import { Hand } from '../support/hand.js';

const now = '2026-11-25T09:00:00.000Z';
const weeksAgo = (time: string): string => at(time).replace('2026-11-25', '2026-11-03');

/**
 * Two sacks of 10 kg came three weeks ago, and tonight a dough took 5,600 g of either of them; one is on hold. Whether the dough surely holds it goes by what was
 * left of the other, which no list of tonight shows: the tablet says the same as the house's list.
 */
describe('whether a dough surely holds one of two sacks that came weeks ago', () => {
  let t: TestApp;
  let b: Bakehouse;
  let elsewhere: Hand;
  let [suspect, other] = ['', ''];
  beforeAll(async () => {
    t = await startTestApp({ clock: new SettableClock(now) });
    b = await Bakehouse.found(t, {}, [{ name: 'Harbour Steps', zone: 'Europe/London' }]);
    elsewhere = new Hand(b.house, b.lead.caller, b.house.created.sites[1] ?? '');
  });
  afterAll(() => t.close());

  const used = async (grams: string): Promise<void> => {
    const make = await b.begun('white', weeksAgo('02:00'));
    await b.baker.record('weighed-in', { make, lines: [b.into('flour', grams, other)] }, { at: weeksAgo('02:05') });
  };
  const sent = async (grams: string): Promise<void> => {
    const lines = [{ lots: [other], quantity: g(grams), how: 'weighed' as const }];
    // Over a counter: what went on a round is with the night for two months, as it may come back.
    const to = { channel: 'counter' as const, customer: null, unattended: false, until: null };
    await b.baker.record('sent-out', { ...to, lines }, { at: weeksAgo('03:00') });
  };
  const cameBack = async (grams: string, by: Hand, time: string): Promise<void> => {
    const back = { lot: other, departure: null, customer: null, quantity: g(grams), how: 'weighed' as const };
    await by.record('goods-returned', { ...back, disposition: 'on-hand' }, { at: time });
  };
  const count = (place: string | null, grams: string, time: string) =>
    b.baker.record('lot-counted', { lot: other, place, quantity: g(grams) }, { at: time });

  it.each<[string, boolean, () => Promise<unknown>]>([
    ['of the other nothing was used', false, () => Promise.resolve()],
    ['of the other 2 kg were left then', true, () => used('8000')],
    ['of the other 2 kg were left after some was sent out', true, () => sent('8000')],
    [
      'of that 5 kg came back to another site, weeks ago',
      false,
      async () => {
        await sent('8000');
        await cameBack('5000', elsewhere, weeksAgo('04:00'));
      },
    ],
    [
      'of that 5 kg came back to another site, tonight',
      false,
      async () => {
        await sent('8000');
        await cameBack('5000', elsewhere, at('00:30'));
      },
    ],
    ['of the other 2 kg were there when it was counted', true, () => count(null, '2000', weeksAgo('05:00'))],
    [
      'of the other 2 kg were on the one shelf that was counted',
      false,
      async () => {
        await b.carried(other, 'freezer', '3000', weeksAgo('01:30'));
        await count(b.place('freezer'), '2000', weeksAgo('05:00'));
      },
    ],
  ])('is one word on the list and on the tablet: %s', async (_what, certain, wentOn) => {
    const sack = (): Promise<string> => b.delivered('flour', weeksAgo('01:00'), { quantity: g('10000') });
    [suspect, other] = [await sack(), await sack()];
    await wentOn();
    const dough = await b.begun('white', at('01:00'));
    const either = { ...b.into('flour', '5600', suspect), orLots: [other] };
    await b.baker.record('weighed-in', { make: dough, lines: [either] }, { at: at('01:05') });
    await b.lead.record('hold-placed', { lot: suspect, deviation: null }, { at: at('02:00'), words: { because: 'glass' } });
    const { held }: OpenThings = openThings.parse((await b.lead.caller.get(`/sites/${b.site}/open`).expect(200)).body);
    const lookup = lookupOf(await b.night(), now, 'Europe/London', b.site);
    const words = (of: readonly { readonly type: string; readonly certain: boolean }[] = []): boolean[] =>
      of.filter((c) => c.type === 'held').map((c) => c.certain);
    expect(words(held.find((h) => h.lot === dough)?.concerns)).toEqual([certain]);
    expect(words(lookup.concerns.get(dough)?.map((r) => ({ type: r.concern.type, certain: r.certain })))).toEqual([certain]);
  });
});
