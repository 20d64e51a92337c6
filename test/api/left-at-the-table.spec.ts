import { stockLeft, traceView } from '@bakehouse/contracts';
import { leftRangeIn, lookupOf } from '@bakehouse/views';
import type { PayloadFor, Snapshot } from '@bakehouse/records';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, g } from '../support/bakehouse.js';
import { Dice } from '../support/dice.js';
import { Offline } from '../support/offline.js';
import { size } from '../support/size.js';

const now = '2026-11-25T06:00:00.000Z';
const histories = size(4, 40);
const days = Array.from({ length: 24 }, (_, i) => `2026-11-${String(i + 1).padStart(2, '0')}`);

/** One lot as somebody keeps it with a pencil: what there was when it was last known, and what went since. */
interface Account {
  mg: number;
  perhaps: number;
}

/** Before these days a tablet holds hardly any record; what it says is left is by all of them. */
describe('what is left of a lot, at the table', () => {
  let t: TestApp;
  let b: Bakehouse;
  beforeAll(async () => {
    t = await startTestApp({ clock: new SettableClock(now) });
    b = await Bakehouse.found(t);
  });
  afterAll(() => t.close());

  const sack = 25_000_000;
  const take = (make: string, grams: number, [lot = '', ...orLots]: readonly string[]) => ({
    make,
    lines: [{ ...b.into('flour', String(grams), lot), ...(orLots.length === 0 ? {} : { orLots }) }],
  });

  /** A dough is weighed in and gone the same day: nothing of it is on the table weeks later. */
  async function taken(day: string, payload: (make: string) => PayloadFor<'weighed-in'>): Promise<string> {
    const make = await b.begun('white', at('06:00', day));
    await b.baker.record('weighed-in', payload(make), { at: at('06:05', day) });
    await b.baker.record('lot-counted', { lot: make, quantity: g('0'), place: null }, { at: at('12:00', day) });
    return make;
  }

  /** Weeks in which sacks came, were used, and were counted now and then. */
  async function recorded(dice: Dice): Promise<ReadonlyMap<string, Account>> {
    const lots = new Map<string, Account>();
    for (const day of days) {
      if (lots.size < 2 || dice.chance(0.2)) lots.set(await b.delivered('flour', at('05:00', day)), { mg: sack, perhaps: 0 });
      const [lot, other] = [dice.of([...lots.keys()]), dice.of([...lots.keys()])];
      const grams = 100 + dice.below(4_000);
      const among = lot !== other && dice.chance(0.2) ? [lot, other] : [lot];
      await taken(day, (make) => take(make, grams, among));
      for (const one of among) {
        const of = lots.get(one);
        if (of) of[among.length > 1 ? 'perhaps' : 'mg'] += (among.length > 1 ? 1 : -1) * grams * 1000;
      }
      if (!dice.chance(0.15)) continue;
      const found = 1_000 + dice.below(20_000);
      await b.baker.record('lot-counted', { lot, quantity: g(String(found)), place: null }, { at: at('18:00', day) });
      lots.set(lot, { mg: found * 1000, perhaps: 0 });
    }
    return lots;
  }

  const atTheTable = (rows: Snapshot, lots: Iterable<string>, when = now) => {
    const lookup = lookupOf(rows, when, 'Europe/London', b.site);
    return [...lots].map((lot) => [lot, leftRangeIn(lookup, lot)] as const);
  };
  const inTheOffice = async (): Promise<ReadonlyMap<string, unknown>> => {
    const { lots } = stockLeft.parse((await b.baker.caller.get(`/sites/${b.site}/stock`).expect(200)).body);
    return new Map(lots.map((l) => [l.lot, { leftMg: l.leftMg, perhapsMg: l.perhapsMg }]));
  };
  const onItsPage = async (lot: string): Promise<number | null | undefined> => {
    const { suspectBalances } = traceView.parse((await b.lead.caller.get(`/lots/${lot}/trace?direction=forward`).expect(200)).body);
    return suspectBalances.find((s) => s.lots.length === 1 && s.lots[0] === lot)?.balance.onHand?.amount;
  };

  it.each(Array.from({ length: histories }, (_, i) => i + 1))('is what all the weeks before left of it, history %i', async (seed) => {
    const lots = await recorded(new Dice(seed));
    const expected = [...lots].map(([lot, { mg, perhaps }]) => [lot, { leftMg: mg, perhapsMg: perhaps }] as const);
    expect(atTheTable(await b.night(), lots.keys())).toEqual(expected);
    const office = await inTheOffice();
    expect([...lots.keys()].map((lot) => [lot, office.get(lot)])).toEqual(expected);
    for (const [lot, { leftMg, perhapsMg }] of expected) if (perhapsMg === 0) expect([lot, await onItsPage(lot)]).toEqual([lot, leftMg]);

    // Without a network: less what is recorded there; a count begins anew; the service says the same once it has it.
    const tablet = new Offline(b.house, await b.night(), b.baker.caller.person);
    const [first = '', second = ''] = lots.keys();
    const { id: make } = tablet.record(
      'make-begun',
      { formulaVersion: b.formula('white'), station: null, plan: null, bakeDay: '2026-11-25', plannedMg: null },
      { at: at('05:00') },
    );
    tablet.record('weighed-in', take(make, 700, [first]), { at: at('05:05') });
    tablet.record('lot-counted', { lot: second, quantity: g('3000'), place: null }, { at: at('05:10') });
    tablet.record('weighed-in', take(make, 250, [second]), { at: at('05:15') });
    const then = [
      [first, { leftMg: (lots.get(first)?.mg ?? 0) - 700_000, perhapsMg: lots.get(first)?.perhaps }],
      [second, { leftMg: 2_750_000, perhapsMg: 0 }],
    ];
    expect(atTheTable(tablet.rows, [first, second])).toEqual(then);
    const results = await b.baker.send(tablet.typed.map((typed) => typed.entry));
    expect(results.filter((r) => r.as !== 'recorded')).toEqual([]);
    expect(atTheTable(await b.night(), [first, second])).toEqual(then);
  });

  it('is not known where one of the weeks before does not know, and is known again from a count', async () => {
    const lot = await b.delivered('flour', at('05:00', '2026-11-03'));
    await taken('2026-11-04', (make) => ({ make, lines: [{ ...b.into('flour', '1', lot), quantity: null }] }));
    expect(atTheTable(await b.night(), [lot])).toEqual([[lot, { leftMg: null, perhapsMg: 0 }]]);
    const tablet = new Offline(b.house, await b.night(), b.baker.caller.person);
    tablet.record('lot-counted', { lot, quantity: g('900'), place: null }, { at: at('05:10') });
    expect(atTheTable(tablet.rows, [lot])).toEqual([[lot, { leftMg: 900_000, perhapsMg: 0 }]]);
  });

  it('counts what turned out to be the same lot, and what went as it', async () => {
    const lot = await b.delivered('flour', at('05:00', '2026-11-03'));
    const make = await taken('2026-11-04', (of) => ({ make: of, lines: [{ ...b.into('flour', '2000', lot), lot: null }] }));
    const { body } = await b.baker.caller.get(`/sites/${b.site}/night?day=2026-11-04`).expect(200);
    const unknown = String(body.rows.flow.find((f: { target: string }) => f.target === make)?.source);
    await b.baker.record('lot-identified', { lot: unknown, code: null, same: lot, delivery: null }, { at: at('09:00', '2026-11-05') });
    expect(atTheTable(await b.night(), [lot])).toEqual([[lot, { leftMg: sack - 2_000_000, perhapsMg: 0 }]]);
  });

  it('costs a device nothing for lots of which it holds every record', async () => {
    const { body } = await b.baker.caller.get(`/sites/${b.site}/night`).expect(200);
    const lot = await b.delivered('flour', at('05:20'));
    const again = await b.baker.caller.get(`/sites/${b.site}/night`).expect(200);
    const carried = (of: { rows: { carriedOver: { id: string }[] } }) => of.rows.carriedOver.map((c) => c.id);
    expect(carried(again.body)).toEqual(carried(body));
    expect(atTheTable(await b.night(), [lot])).toEqual([[lot, { leftMg: sack, perhapsMg: 0 }]]);
  });
});
