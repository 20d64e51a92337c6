import { snapshotOf, type PayloadFor } from '@bakehouse/records';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, g, pieces } from '../support/bakehouse.js';
import { heldOnToday } from '../support/on-today.js';

const now = '2026-11-25T08:00:00.000Z';

/** One dough at one site, made up into what stays, what is sent to the shop in part, what is sent there whole, and what was sent without a number; then it is put on hold. */
describe('food on hold at one of two sites', () => {
  let t: TestApp;
  let b: Bakehouse;
  let steps: string;
  let dough: string;
  let flour: string;
  let spent: string;
  let run: string;
  let named: ReadonlyMap<string, string>;
  const batches = { stays: '', parted: '', sent: '', notCounted: '' };

  const send = (batch: string, customer: string, quantity: PayloadFor<'sent-out'>['lines'][number]['quantity']) =>
    b.baker.record(
      'sent-out',
      { channel: 'own-shop', customer, unattended: false, until: null, lines: [{ lots: [batch], quantity, how: 'counted' }] },
      { at: at('05:00') },
    );
  const today = async (site: string): Promise<[string, number | null][]> =>
    (await heldOnToday(b.lead.caller, site, now)).map((h): [string, number | null] => [named.get(h.id) ?? h.id, h.left.amount]).sort();

  beforeAll(async () => {
    t = await startTestApp({ clock: new SettableClock(now) });
    b = await Bakehouse.found(t, {}, [{ name: 'Harbour Steps', zone: 'Europe/London' }]);
    steps = b.house.created.sites[1] ?? '';
    const shop = b.newId();
    const party = { party: shop, type: 'own-shop' as const, vulnerable: false, unattended: false };
    await b.house.decide({ kind: 'party-accepted', payload: party, words: { name: 'Harbour Steps' }, at: at('00:05') });
    dough = await b.begun('white', at('01:00'));
    flour = await b.delivered('flour', at('00:10'));
    spent = await b.delivered('flour', at('00:11'));
    const lines = [b.into('flour', '1000', flour), b.into('flour', '900', spent)];
    await b.baker.record('weighed-in', { make: dough, lines }, { at: at('01:05') });
    await b.baker.record('lot-counted', { lot: spent, place: null, quantity: g('0') }, { at: at('01:06') });
    run = b.newId();
    const runs = [{ run, product: b.material('bap'), heads: null, scaling: g('45'), pieces: 40 }];
    await b.baker.record('divided', { make: dough, quantity: null, runs, oldDough: null, scrap: null }, { at: at('01:10') });
    for (const [i, name] of (['stays', 'parted', 'sent', 'notCounted'] as const).entries()) {
      const counted = { run, loads: [], pieces: 10, rejects: 0, code: `BAP-${i}`, bakedOn: '2026-11-25' };
      batches[name] = (await b.baker.record('batch-counted-out', { ...counted, bestBefore: null, useBy: null }, { at: at('02:00') })).id;
    }
    await send(batches.parted, shop, pieces(4));
    await send(batches.sent, shop, pieces(10));
    await send(batches.notCounted, shop, null);
    named = new Map([
      ...Object.entries(batches).map(([name, id]) => [id, name] as const),
      [dough, 'dough'],
      [flour, 'flour'],
      [spent, 'spent'],
      [run, 'run'],
    ]);
    for (const lot of [flour, spent])
      await b.lead.record('hold-placed', { lot, deviation: null }, { at: at('07:00'), words: { because: 'moth' } });
  });
  afterAll(() => t.close());

  it('is on the first screen of the site where it is, with how much of it is there, and where nobody can say on both', async () => {
    expect(await today(b.site)).toEqual([
      ['flour', 24_000_000],
      ['notCounted', null],
      ['parted', 6],
      ['stays', 10],
    ]);
    expect(await today(steps)).toEqual([
      ['notCounted', null],
      ['parted', 4],
      ['sent', 10],
    ]);
  });

  it('has what it came of on a tablet of the other site, which it is worked out by there', async () => {
    const { rows } = (await b.lead.caller.get(`/sites/${steps}/night`).expect(200)).body;
    expect(snapshotOf(rows).lot.map((l) => l.id)).toEqual(expect.arrayContaining([run, dough, flour, spent]));
  });
});
