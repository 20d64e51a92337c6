import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { KindName, PayloadFor } from '@bakehouse/records';
import { uuidv7 } from '../../apps/api/src/platform/ids/index.js';
import { Hand } from '../support/hand.js';
import { NightTable } from './_night.js';
import { typeOnPad } from './_page.js';

let n: NightTable;
let lead: Hand;
let hold: string;
let second: string;
beforeAll(async () => {
  n = await NightTable.open('05:30', { offLine: true });
  lead = new Hand(n.night.house, n.night.lead);
  const first = await begun();
  const flour = await delivered('F-7', null);
  await delivered('F-9', '2026-11-24');
  await delivered('F-5', null);
  await record('receipt-decided', { lot: await delivered('F-8', null), decision: 'refused' }, { condition: 'torn' });
  await record('place-in-use', { name: 'Flour bin', type: 'vessel', within: null });
  await record('lot-opened', { station: n.night.mixer, material: n.night.materials.flour, lot: flour, beside: false });
  const line = {
    material: n.night.materials.flour,
    lot: flour,
    quantity: { figure: '20000', unit: 'g' as const },
    how: 'weighed' as const,
  };
  await record('weighed-in', { make: first, lines: [{ ...line, type: 'ingredient' }] });
  await signed('released-by-exception', { batch: await counted(first, 'T-1', 20, 20) }, { why: 'no core was read' });
  second = await begun();
  hold = await record('hold-placed', { lot: flour, deviation: null }, { because: 'mites' });
  await n.enrolAndTap('Tam Wick');
});
afterAll(() => n?.close());

const record = async <K extends KindName>(kind: K, payload: PayloadFor<K>, words: Readonly<Record<string, string>> = {}): Promise<string> =>
  (await lead.record(kind, payload, { words })).id;
const signed = <K extends KindName>(kind: K, payload: PayloadFor<K>, words: Readonly<Record<string, string>> = {}) =>
  lead.record(kind, payload, { words });

async function begun(): Promise<string> {
  const { body } = await n.night.lead.get(`/sites/${n.night.house.site}/night`).expect(200);
  const formulaVersion = String(body.rows.formulaVersion[0].id);
  const plannedMg = 20_000_000;
  return record('make-begun', { formulaVersion, station: n.night.mixer, plan: null, bakeDay: '2026-11-25', plannedMg });
}
async function delivered(code: string, useBy: string | null): Promise<string> {
  const lot = uuidv7(n.clock.now());
  const of = { lot, material: n.night.materials.flour, quantity: { figure: '50', unit: 'kg' as const }, asWritten: null };
  const line = { ...of, code, codeState: 'on-it' as const, bestBefore: null, useBy, temperature: null };
  await record('delivery-received', { supplier: null, noteNumber: null, photo: null, unattended: false, lines: [line] });
  return lot;
}
/** So many of a product, of which some are counted out already. */
async function counted(make: string, code: string, divided: number, pieces: number): Promise<string> {
  const run = uuidv7(n.clock.now());
  const runs = [{ run, product: n.night.products.tin, heads: null, pieces: divided, scaling: { figure: '910', unit: 'g' as const } }];
  await record('divided', { make, quantity: null, oldDough: null, scrap: null, runs });
  const dates = { bakedOn: '2026-11-25', bestBefore: '2026-11-28', useBy: null };
  return record('batch-counted-out', { run, loads: [], pieces, rejects: 0, code, ...dates });
}

/** One lot is named with why it should not be used; it is used all the same. */
async function allTheSame(expected: RegExp): Promise<void> {
  const asked = n.sheet().filter({ hasText: 'Use it all the same?' });
  await asked.getByText(expected).first().waitFor();
  await asked.getByRole('button', { name: 'Use it all the same' }).click();
  await asked.waitFor({ state: 'detached' });
}
const rows = async (name: string): Promise<readonly Record<string, unknown>[]> => {
  await n.page.getByText('all sent').waitFor();
  return (await n.night.lead.get(`/sites/${n.night.house.site}/night?day=2026-11-25`).expect(200)).body.rows[name];
};

describe('what is on hold', () => {
  it('stands on top of the first screen where it was released before, and is not green', async () => {
    const found = n.main().locator('.notice', { hasText: 'Found after release: 1' });
    await found.getByText(/T-1: on hold: mites/).waitFor();
    await n.main().getByText('released, and something was found since').waitFor();
    expect(
      await n
        .main()
        .getByText(/^Released /)
        .count(),
    ).toBe(0);
    await n.picture('found-after-release');
  });

  it('says so before it is weighed in, and is weighed in by one more tap', async () => {
    await n.page.goto(`/table/make/${second}/weigh`);
    await n.main().locator('td', { hasText: 'F-7' }).getByText('on hold').waitFor();
    await n.picture('weigh-on-hold');
    await n.tap('White flour: use it all the same');
    await n.sheet().getByText('on hold: mites').waitFor();
    await n.picture('all-the-same');
    await n.sheet().getByRole('button', { name: 'Do not use it' }).click();
    expect((await rows('flow')).filter((f) => f['target'] === second)).toEqual([]);
    await n.main().getByRole('button', { name: 'Weigh in 4 lines' }).waitFor();
    await n.tap('White flour: use it all the same');
    await allTheSame(/White flour, F-7 is on hold/);
    await n.tap('Weigh in 5 lines');
    await n.heading('White dough').waitFor();
    await n
      .main()
      .locator('.concerns')
      .getByText(/on hold: mites/)
      .waitFor();
    await n.picture('dough-on-hold');
    expect((await rows('flow')).filter((f) => f['target'] === second).length).toBeGreaterThan(0);
  });

  it('is so for what was made of it: a batch has its own state, names what is found, and cannot be released by rule', async () => {
    await counted(second, 'T-2', 20, 10);
    await n.page.goto('/table');
    await n.main().locator('.loaf', { hasText: 'T-2' }).getByText('on hold').waitFor();
    await n.main().getByRole('link', { name: /T-2/ }).first().click();
    await n.main().getByText('It is on hold for this').waitFor();
    await n.main().getByText('on hold: mites').waitFor();
    expect(await n.main().textContent()).toContain('from White flour');
    expect(await n.main().getByRole('button', { name: 'Release', exact: true }).count()).toBe(0);
    await n.picture('batch-on-hold');
  });

  it('asks before it goes into the oven, onto the counter and out', async () => {
    await n.place('Today');
    await n.tap('Into the oven');
    await n.page.getByText('Top deck', { exact: true }).click();
    await n
      .main()
      .getByRole('button', { name: /^White tin.*on hold/ })
      .last()
      .click();
    await n.picture('load-on-hold');
    await n.tap('In it goes');
    await allTheSame(/White tin 800 g.* is on hold/);
    await n.page.getByText('So far').waitFor();
    await n.place('Send out');
    await n.tap('Counter');
    await n.picture('counter-on-hold');
    await n.tap(/T-2: on the counter/);
    await allTheSame(/White tin 800 g, T-2 is on hold/);
    await n.sheet().getByRole('button', { name: 'Record it' }).click();
    await n.main().getByText('10 there').waitFor();
    await n.place('Send out');
    expect(await n.main().getByRole('link', { name: /T-2/ }).textContent()).toMatch(/on hold.*on the counter/);
    await n.tap(/^One customer/);
    await n
      .main()
      .getByRole('button', { name: /White tin.*on hold/ })
      .click();
    await typeOnPad(n.page, '3');
    await n.picture('send-on-hold');
    await n.sheet().getByRole('button', { name: 'Done' }).click();
    for (const text of ['nobody on the list', 'somebody took it']) await n.page.getByText(text, { exact: true }).click();
    await n.page.getByLabel(/^Who took it/).fill('the green door');
    await n.tap('Record it');
    await allTheSame(/White tin 800 g, T-1 is on hold/);
    await n.main().getByText('White tin 800 g should not have left').waitFor();
  });

  it('asks before another one is opened that is past its date, and before a tub is topped up with it', async () => {
    await n.place('Open lots');
    await n.tap('White flour: ran out');
    await n.sheet().getByRole('button', { name: /F-9/ }).getByText('past its use-by date').waitFor();
    await n.picture('open-past-date');
    await n.sheet().getByRole('button', { name: /F-9/ }).click();
    await allTheSame(/White flour, F-9 is past its use-by date/);
    await n.main().getByText('F-9').first().waitFor();
    await n.page.goto('/table/out/vessels');
    await n.tap('Fill or top up');
    await n.sheet().getByRole('button', { name: 'White flour' }).click();
    await n.sheet().getByText('F-8').click();
    await n.sheet().getByText('refused').waitFor();
    await n.picture('vessel-refused');
    await n.sheet().getByRole('button', { name: 'Record it' }).click();
    await allTheSame(/White flour, F-8 is refused/);
    await n.main().locator('.row', { hasText: 'White flour' }).getByText('refused').waitFor();
  });

  it('is not any more once the hold is lifted, signed', async () => {
    await signed('hold-lifted', { hold }, { why: 'sieved and tested' });
    await n.page.goto('/table');
    await n
      .main()
      .getByText(/^\d+ released$/)
      .click();
    await n
      .main()
      .getByText(/^Released /)
      .first()
      .waitFor();
    expect(await n.main().getByText('Found after release').count()).toBe(0);
  });

  it('is placed by a tapped name, off line too, on a batch, a dough and a sack, with the reason', async () => {
    await n.context.setOffline(true);
    for (const name of [/T-2/, /^White dough/]) {
      await n.place('Today');
      const link = n.main().getByRole('link', { name }).first();
      if (!(await link.isVisible()))
        await n
          .main()
          .getByText(/^Finished: /)
          .click();
      await link.click();
      await n.tap(/^Put on hold: /);
      expect(await n.sheet().getByRole('button', { name: 'Put it on hold' }).isDisabled()).toBe(true);
      await n.sheet().getByLabel('Why').fill('glass broke at the table');
      await n.picture('put-on-hold');
      await n.tap('Put it on hold', n.sheet());
      await n
        .main()
        .getByText(/on hold: glass broke at the table/)
        .first()
        .waitFor();
    }
    await n.place('Send out');
    await n.tap('In stock');
    await n.main().getByRole('link', { name: /F-5/ }).click();
    await n.tap(/^Put on hold: White flour/);
    await n.sheet().getByLabel('Why').fill('moths');
    await n.tap('Put it on hold', n.sheet());
    await n.main().getByText('on hold', { exact: true }).waitFor();
    await n.context.setOffline(false);
    await n.place('Today');
    await n.main().getByText('on hold').first().waitFor();
    await n.at('05:32');
    expect((await rows('hold')).map((h) => h['because']).sort()).toEqual([
      'glass broke at the table',
      'glass broke at the table',
      'mites',
      'moths',
    ]);
  });

  it('fits under a finger everywhere', () => {
    expect([...n.awkward]).toEqual([]);
  });
});
