import { recallView, traceView, type TraceView } from '@bakehouse/contracts';
import { leftInLot, lookupOf } from '@bakehouse/views';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, g } from '../support/bakehouse.js';

const now = '2026-11-25T09:00:00.000Z';
const all = 1_000_000_000_000;

/** Sacks of 10 kg, of which 2 kg were carried to a shelf. What stands on the shelf is not what there is of the sack. */
describe('a count of a named place, in a trace', () => {
  let t: TestApp;
  let b: Bakehouse;
  beforeAll(async () => {
    t = await startTestApp({ clock: new SettableClock(now) });
    b = await Bakehouse.found(t);
  });
  afterAll(() => t.close());

  const sack = (): Promise<string> => b.delivered('flour', at('00:10'), { quantity: g('10000') });
  const onAShelf = async (): Promise<string> => {
    const lot = await sack();
    await b.carried(lot, 'freezer', '2000', at('00:20'));
    return lot;
  };
  const count = (lot: string, place: 'freezer' | 'deckOven' | null, grams: string, time: string) =>
    b.baker.record('lot-counted', { lot, place: place === null ? null : b.place(place), quantity: g(grams) }, { at: at(time) });
  const take = async (lots: readonly string[], grams: string): Promise<string> => {
    const [lot = '', ...orLots] = lots;
    const make = await b.begun('white', at('01:10'));
    await b.baker.record('weighed-in', { make, lines: [{ ...b.into('flour', grams, lot), orLots }] }, { at: at('01:15') });
    return make;
  };
  const trace = async (lot: string): Promise<TraceView> =>
    traceView.parse((await b.lead.caller.get(`/lots/${lot}/trace?direction=forward`).expect(200)).body);

  it('is the amount of the whole lot in the trace where it is on the stock list', async () => {
    const lot = await onAShelf();
    await count(lot, 'freezer', '500', '01:00');
    await take([lot], '3000');
    const said = async () => {
      const { onHand, suspectBalances } = await trace(lot);
      const lookup = lookupOf(await b.night(), now, 'Europe/London', b.site);
      const balance = suspectBalances[0]?.balance;
      return [onHand.find((o) => o.lot === lot)?.amount, balance?.onHand?.amount, balance?.counted?.amount, leftInLot(lookup, lot)];
    };
    // 10,000 g less 3,000 g: the shelf says nothing of what stands elsewhere.
    expect(await said()).toEqual([7_000_000, 7_000_000, undefined, 7_000_000]);
    await count(lot, 'deckOven', '6000', '01:05');
    // 500 g on the shelf and 6,000 g elsewhere, less 3,000 g since.
    expect(await said()).toEqual([3_500_000, 3_500_000, 6_500_000, 3_500_000]);
  });

  it.each<[string, (lot: string) => Promise<unknown>, object]>([
    ['the shelf alone', () => Promise.resolve(), { certain: false, minPpt: 0, maxPpt: all }],
    // 500 g and 300 g were all that there was of the other: of 5,000 g the suspect gave 4,200 g or more.
    [
      'the shelf and the other place',
      (lot) => count(lot, 'deckOven', '300', '01:00'),
      { certain: true, minPpt: 840_000_000_000, maxPpt: all },
    ],
    ['the whole of it', (lot) => count(lot, null, '800', '01:00'), { certain: true, minPpt: 840_000_000_000, maxPpt: all }],
    ['another place, and nothing on the shelf', (lot) => count(lot, 'freezer', '0', '01:00'), { certain: false, minPpt: 0, maxPpt: all }],
  ])('bounds the share of what was taken of one of two lots as it does the word: %s', async (_what, counted, expected) => {
    const [suspect, other] = [await sack(), await onAShelf()];
    await count(other, 'freezer', '500', '00:50');
    await counted(other);
    const dough = await take([suspect, other], '5000');
    expect((await trace(suspect)).lots.find((l) => l.id === dough)).toMatchObject(expected);
    const id = b.newId();
    const opened = { id, suspect: [suspect], hazard: 'physical', hazardName: 'glass', practice: false, said: '' };
    const { trace: traced } = recallView.parse((await b.lead.caller.post('/recalls', opened).expect(200)).body);
    expect(traced.lots.find((l) => l.id === dough)).toMatchObject(expected);
  });

  it('bounds neither where some was sent to a shop of the house: a count in the one says nothing of the other', async () => {
    const [suspect, other] = [await sack(), await sack()];
    const shop = b.newId();
    const party = { party: shop, type: 'own-shop' as const, vulnerable: false, unattended: false };
    await b.house.decide({ kind: 'party-accepted', payload: party, words: { name: 'Harbour Steps' }, at: at('00:05') });
    const lines = [{ lots: [other], quantity: g('9000'), how: 'weighed' as const }];
    await b.baker.record('sent-out', { channel: 'own-shop', customer: shop, unattended: false, until: null, lines }, { at: at('00:30') });
    await count(other, null, '800', '01:00');
    const dough = await take([suspect, other], '5000');
    expect((await trace(suspect)).lots.find((l) => l.id === dough)).toMatchObject({ certain: false, minPpt: 0, maxPpt: all });
  });
});
