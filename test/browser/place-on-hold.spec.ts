import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { KindName, PayloadFor } from '@bakehouse/records';
import { uuidv7 } from '../../apps/api/src/platform/ids/index.js';
import { Hand } from '../support/hand.js';
import { NightTable } from './_night.js';

let n: NightTable;
let lead: Hand;
let make: string;
let lot: string;
beforeAll(async () => {
  n = await NightTable.open('05:30');
  lead = new Hand(n.night.house, n.night.lead);
  lot = uuidv7(n.clock.now());
  const of = { lot, material: n.night.materials.flour, quantity: { figure: '50', unit: 'kg' as const }, asWritten: null };
  const line = { ...of, code: 'F-7', codeState: 'on-it' as const, bestBefore: null, useBy: null, temperature: null };
  await record('delivery-received', { supplier: null, noteNumber: null, photo: null, unattended: false, lines: [line] });
  await record('lot-opened', { station: n.night.mixer, material: n.night.materials.flour, lot, beside: false });
  const { body } = await n.night.lead.get(`/sites/${n.night.house.site}/night`).expect(200);
  const formulaVersion = String(body.rows.formulaVersion[0].id);
  make = await record('make-begun', { formulaVersion, station: null, plan: null, bakeDay: '2026-11-25', plannedMg: 20_000_000 });
  await n.enrolAndTap('Tam Wick');
});
afterAll(() => n?.close());

const record = async <K extends KindName>(kind: K, payload: PayloadFor<K>, words: Readonly<Record<string, string>> = {}): Promise<string> =>
  (await lead.record(kind, payload, { words })).id;

const holds = async (): Promise<readonly Record<string, unknown>[]> => {
  await n.page.getByText('all sent').waitFor();
  return (await n.night.lead.get(`/sites/${n.night.house.site}/night?day=2026-11-25`).expect(200)).body.rows.placeHold;
};

describe('a place on hold', () => {
  it('is put on hold from the first screen, with what was found and since when', async () => {
    await n.page.goto('/table');
    await n.tap('Put a place on hold');
    await n.heading('Put a place on hold').waitFor();
    const key = n.main().getByRole('button', { name: 'Put it on hold' });
    await n.main().getByText('No place is on hold.').waitFor();
    await n.main().getByText('Big mixer', { exact: true }).click();
    expect(await key.isDisabled()).toBe(true);
    await n.main().getByLabel('What was found there?').fill('a light broke');
    await n.main().getByLabel('Since what time?').fill('23:59');
    await n.main().getByText('That is still to come: say a time that has been.').waitFor();
    expect(await key.isDisabled()).toBe(true);
    await n.main().getByLabel('Since what time?').fill('05:10');
    await n.picture('hold-place');
    await key.click();
    await n.main().locator('.row', { hasText: 'Big mixer' }).getByText('on hold').waitFor();
    await n
      .main()
      .getByText(/a light broke, since .*05:10, until it may be used again/)
      .waitFor();
    const [hold] = await holds();
    expect(hold).toMatchObject({ place: n.night.mixer, begins: '2026-11-25T05:10:00.000Z', ends: null, because: 'a light broke' });
  });

  it('says so of what was opened there, before it is weighed in', async () => {
    await n.page.goto(`/table/make/${make}/weigh`);
    await n.main().locator('td', { hasText: 'F-7' }).getByText('on hold').waitFor();
    await n.tap('White flour: use it all the same');
    await n
      .sheet()
      .getByText(/it was at a place on hold: Big mixer: a light broke/)
      .waitFor();
    await n.sheet().getByRole('button', { name: 'Do not use it' }).click();
  });

  it('is said no more once it may be used again; the flour is free once that is signed for it', async () => {
    const [row] = await holds();
    const hold = String(row?.['id']);
    await record('place-hold-ended', { hold }, { why: 'swept and looked over' });
    await n.page.goto('/table/hold-place');
    await n.main().getByText('No place is on hold.').waitFor();
    await n.page.goto(`/table/make/${make}/weigh`);
    await n.main().locator('td', { hasText: 'F-7' }).getByText('on hold').waitFor();
    await record('food-at-place-accepted', { hold, lot, covers: 'what-came-of-it' }, { why: 'the sack was shut' });
    await n.page.goto(`/table/make/${make}/weigh`);
    await n.main().locator('td', { hasText: 'F-7' }).waitFor();
    await n.main().locator('td', { hasText: 'F-7' }).getByText('on hold').waitFor({ state: 'detached' });
  });
});
