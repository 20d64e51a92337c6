import type { PayloadFor } from '@bakehouse/records';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { at } from '../support/bakehouse.js';
import { Hand } from '../support/hand.js';
import { NightTable } from './_night.js';
import { typeOnPad } from './_page.js';

let n: NightTable;
beforeAll(async () => {
  n = await NightTable.open('07:00');
  const lead = new Hand(n.night.house, n.night.lead);
  const line = (lot: string, code: string): PayloadFor<'delivery-received'>['lines'][number] => ({
    lot,
    material: n.night.materials.flour,
    code,
    codeState: 'on-it',
    quantity: { figure: '25', unit: 'kg' },
    asWritten: null,
    bestBefore: null,
    useBy: null,
    temperature: null,
  });
  const delivered = async (code: string): Promise<{ lot: string; delivery: string }> => {
    const lot = n.night.house.entry({ kind: 'entry-withdrawn', payload: {} }).id;
    const paper = { supplier: null, noteNumber: 'DN 7', photo: null, unattended: false, lines: [line(lot, code)] };
    return { lot, delivery: (await lead.record('delivery-received', paper, { at: at('06:00') })).id };
  };
  const torn = await delivered('T-1');
  await lead.record('receipt-decided', { lot: torn.lot, decision: 'refused' }, { at: at('06:10'), words: { condition: 'torn' } });
  const mistaken = await delivered('W-1');
  await lead.record('lot-counted', { lot: mistaken.lot, place: null, quantity: { figure: '24', unit: 'kg' } }, { at: at('06:20') });
  const withdrawn = n.night.house.entry({
    kind: 'entry-withdrawn',
    payload: {},
    at: at('06:30'),
    corrects: mistaken.delivery,
    words: { reason: 'typed twice' },
  });
  expect(await lead.send([withdrawn])).toMatchObject([{ as: 'recorded' }]);
  await n.enrolAndTap('Ines Pellow');
  await n.page.goto('/office');
});
afterAll(() => n?.close());

describe('what is on hold for how it came in', () => {
  it.each([
    ['refused', 'T-1', 'the mill says that only the outer bag was torn'],
    ['withdrawn', 'W-1', 'it was one delivery, and this is it'],
  ])('is accepted after all where it was %s: signed, with why and for what', async (what, code, why) => {
    const row = n.page.locator('.row', { hasText: code });
    await row.getByText(what).first().waitFor();
    await n.picture(`accept-${what}-list`);
    await row.getByRole('button', { name: /^Accept after all: / }).click();
    const sign = n.sheet().getByRole('button', { name: /^Sign/ });
    await n.sheet().getByLabel(/^Why/).fill(why);
    expect(await sign.count()).toBe(0); // nothing is chosen beforehand
    for (const group of await n.sheet().getByRole('group').all()) await group.getByRole('radio').first().check();
    await n.picture(`accept-${what}`);
    await sign.click();
    await typeOnPad(n.page, n.night.lead.pin);
    await n.page.locator('dialog').last().getByRole('button', { name: 'Go on' }).click();
    await row.waitFor({ state: 'detached' });
  });
});
