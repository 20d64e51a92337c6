import type { SentEnvelope } from '@bakehouse/kernel';
import type { KindName, PayloadFor } from '@bakehouse/records';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { uuidv7 } from '../../apps/api/src/platform/ids/index.js';
import type { Caller } from '../support/people.js';
import { NightTable } from './_night.js';
import { typeOnPad } from './_page.js';

let n: NightTable;
let cafe: string;
let school: string;
let shop: string;
let lead: Caller;
const lots: Record<string, string> = {};

/** A café had six tins, four baps and a bloomer on Tuesday; on Wednesday there are tins of both days and baps on hold, and no bloomer. */
beforeAll(async () => {
  n = await NightTable.open('05:30', { date: '2026-11-24', offLine: true });
  lead = n.night.lead;
  [cafe, school] = [await customer('Early café'), await customer('Hill school')];
  shop = await customer('Harbour Steps', 'own-shop');
  await bake('2026-11-24', { 'T-1': ['tin', 10], 'B-1': ['bap', 9], 'O-1': ['bloomer', 1] });
  await record('sent-out', {
    ...{ channel: 'round', customer: cafe, unattended: false, until: null },
    lines: [line('T-1', 6), line('B-1', 4), line('O-1', 1)],
  });
  await n.wallTo('05:30', '2026-11-25');
  await n.night.house.again();
  lead = await n.night.house.signedOn('Ivo Ferrow', ['food-safety-lead', 'manager']);
  await bake('2026-11-25', { 'T-2': ['tin', 20] });
  await record('hold-placed', { lot: lots['B-1'] ?? '', deviation: null }, { because: 'a bulb broke' });
  await n.enrolAndTap('Tam Wick');
});
afterAll(() => n?.close());

const line = (code: string, pieces: number) => ({
  lots: [lots[code] ?? ''],
  quantity: { figure: String(pieces), unit: 'piece' as const },
  how: 'counted' as const,
});

async function customer(name: string, type: 'customer' | 'own-shop' = 'customer'): Promise<string> {
  const party = uuidv7(n.clock.now());
  const payload = { party, type, vulnerable: false, unattended: false };
  await n.night.house.decide({ kind: 'party-accepted', payload, words: { name, phone: '01632 960014', contactName: 'the owner' } });
  return party;
}

async function send(entry: SentEnvelope): Promise<string> {
  const { house } = n.night;
  const { body } = await lead.post(`/sites/${house.site}/entries`, [entry]).expect(200);
  expect(body).toMatchObject([{ as: 'recorded' }]);
  return entry.id;
}
const record = <K extends KindName>(kind: K, payload: PayloadFor<K>, words?: Record<string, string>): Promise<string> =>
  send(n.night.house.entry({ kind, payload, ...(words ? { words } : {}) }));

/** Batches of one dough, let go by exception: these nights have no plan. */
async function bake(day: string, codes: Record<string, readonly ['tin' | 'bap' | 'bloomer', number]>): Promise<void> {
  const { house, products, mixer } = n.night;
  const { body } = await lead.get(`/sites/${house.site}/night`).expect(200);
  const formulaVersion = String(body.rows.formulaVersion[0].id);
  const make = await record('make-begun', { formulaVersion, station: mixer, plan: null, bakeDay: day, plannedMg: null });
  for (const [code, [product, pieces]] of Object.entries(codes)) {
    const run = uuidv7(n.clock.now());
    const runs = [{ run, product: products[product], heads: null, pieces, scaling: { figure: '75', unit: 'g' as const } }];
    await record('divided', { make, quantity: null, oldDough: null, scrap: null, runs });
    const dates = { bakedOn: day, bestBefore: '2026-11-28', useBy: null };
    lots[code] = await record('batch-counted-out', { run, loads: [], pieces, rejects: 0, code, ...dates });
    const entry = house.entry({ kind: 'released-by-exception', payload: { batch: lots[code] }, words: { why: 'no plan yet' } });
    const { signature } = (await lead.post('/signatures', { pin: lead.pin, entry }).expect(200)).body;
    await send({ ...entry, send: { signature } });
  }
}

const lineOf = (name: string) => n.main().locator('.order-lines .row', { hasText: name });
const rows = async (): Promise<Record<string, unknown>[]> => {
  await n.page.getByText('all sent').waitFor();
  await n.night.house.again();
  const { body } = await n.night.house.administrator.get(`/sites/${n.night.house.site}/night?day=2026-11-25`).expect(200);
  const all: Record<string, unknown>[] = body.rows.departure;
  return all.filter((d) => String(d['at']).startsWith('2026-11-25'));
};
const departures = async () => (await rows()).map((d) => [d['lot'], d['customer'], d['pieces'], d['certain']]);
const add = async (name: string, pieces: string): Promise<void> => {
  await n.tap(new RegExp(`^${name}`));
  await typeOnPad(n.page, pieces);
  await n.sheet().getByRole('button', { name: 'Done' }).click();
};

describe('a drop', () => {
  it('begins, without a network too, with what the customer had on the last day before, and says so', async () => {
    await n.place('Send out');
    await n.context.setOffline(true);
    await n.tap(/^The round/);
    await n.page.getByText('Early café').click();
    expect(await n.main().locator('.order-from').textContent()).toContain('As on Tue 24 Nov');
    const tin = await lineOf('White tin').textContent();
    expect(tin).toContain('24 left');
    expect(tin).toContain('take T-1 first, 4 there');
    await n.main().getByRole('button', { name: 'White tin 800 g: 6', exact: true }).waitFor();
    expect(await lineOf('Bloomer').textContent()).toContain('none is left: none goes');
    expect(await lineOf('Bap').textContent()).toContain('on hold');
    await n.picture('last-order');
  });

  it('is changed by exception: one more, a figure, taken off', async () => {
    await n.tap('White tin 800 g: one more');
    await n.main().getByRole('button', { name: 'White tin 800 g: 7, 6 in the order' }).click();
    await typeOnPad(n.page, '9');
    await n.sheet().getByRole('button', { name: 'As ordered' }).click();
    await n.tap('White tin 800 g: one more');
    // all four baps of the order are on hold: none is proposed, and that is a change like any other
    await n.main().getByText('3 lines, 3 changed.').waitFor();
    expect(await lineOf('Bap').textContent()).toContain('none this time');
    await n.picture('last-order-changed');
    await n.tap('Record it');
    await n.page.getByText('On record: Early café').waitFor();
    await n.context.setOffline(false);
    expect(await departures()).toEqual(
      expect.arrayContaining([
        [lots['T-1'], cafe, 7, false],
        [lots['T-2'], cafe, 7, false],
      ]),
    );
    expect(await departures()).toHaveLength(2);
  });

  it('of a customer who had it today begins empty, and says what went', async () => {
    await n.tap('Next drop');
    await n.page.getByText('Early café').click();
    await n.main().getByText('7 White tin 800 g. So nothing is filled in.').waitFor();
    expect(await n.main().locator('.order-lines').count()).toBe(0);
    await n.tap('Fill it in as on Tue 24 Nov');
    await n.main().getByRole('button', { name: 'White tin 800 g: 6', exact: true }).waitFor();
  });

  it('of one who never had anything is not made up; and what is on hold asks what it asks today', async () => {
    await n.page.getByText('Hill school').click();
    await n.main().getByText('No earlier order of theirs is on this tablet').waitFor();
    expect(await n.main().locator('.order-lines').count()).toBe(0);
    await n.tap(/^Bap/);
    await typeOnPad(n.page, '2');
    await n.sheet().getByRole('button', { name: 'Done' }).click();
    await n.tap('Record it');
    await n.sheet().getByText('a bulb broke').waitFor();
    await n.sheet().getByRole('button', { name: 'Do not use it' }).click();
    await n.tap(/^Bap: 2/);
    await n.sheet().getByRole('button', { name: 'Take it off' }).click();
    await n.tap(/^White tin/);
    await typeOnPad(n.page, '3');
    await n.sheet().getByText('T-1, 4 left').click();
    await n.sheet().getByRole('button', { name: 'Done' }).click();
    await n.tap('Record it');
    await n.page.getByText('On record: Hill school').waitFor();
    expect(await departures()).toContainEqual([lots['T-1'], school, 3, true]);
  });

  it('to the house’s own shop goes by its name', async () => {
    await n.place('Send out');
    await n.tap(/^Harbour Steps/);
    await n.heading('Harbour Steps').waitFor();
    expect(await n.page.getByRole('radio', { name: 'Harbour Steps' }).isChecked()).toBe(true);
    await add('White tin', '2');
    await n.tap('Record it');
    await n.page.getByText('On record: Harbour Steps').waitFor();
    expect(await departures()).toContainEqual([lots['T-1'], shop, 2, false]);
  });

  it('to a stall says where it stands and until when it sells', async () => {
    await n.place('Send out');
    await n.tap(/^The stall/);
    await n.page.getByLabel('Where does it stand?').fill('Corn square');
    await n.page.getByLabel('Until what time does it sell?').fill('13:00');
    await add('White tin', '1');
    await n.picture('stall');
    await n.tap('Record it');
    await n.page.getByText('On record', { exact: true }).waitFor();
    const stall = (await rows()).filter((d) => d['channel'] === 'stall');
    expect(stall.map((d) => d['until'])).toEqual(['2026-11-25T13:00:00.000Z', '2026-11-25T13:00:00.000Z']);
    await n.place('Recent entries');
    await n.tap(/Goods were sent out/);
    await n.main().getByText('stall: Corn square').waitFor();
  });

  it('fits under a finger', () => {
    expect([...n.awkward]).toEqual([]);
  });
});
