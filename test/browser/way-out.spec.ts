import type { PayloadFor } from '@bakehouse/records';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { uuidv7 } from '../../apps/api/src/platform/ids/index.js';
import { at } from '../support/bakehouse.js';
import { Hand } from '../support/hand.js';
import { NightTable } from './_night.js';
import { typeOnPad } from './_page.js';

let n: NightTable;
let lead: Hand;
let sack: string;
let dough: string;
/** A whole sack went into a dough; then it was put on hold. None of it is left, and the dough is on hold because of it. */
beforeAll(async () => {
  n = await NightTable.open('07:00');
  lead = new Hand(n.night.house, n.night.lead);
  const { flour } = n.night.materials;
  sack = uuidv7(n.clock.now());
  const quantity = { figure: '25', unit: 'kg' as const };
  const line: PayloadFor<'delivery-received'>['lines'][number] = {
    ...{ lot: sack, material: flour, code: 'F-1', codeState: 'on-it', quantity, asWritten: null },
    ...{ bestBefore: null, useBy: null, temperature: null },
  };
  const paper = { supplier: null, noteNumber: 'DN 1', photo: null, unattended: false, lines: [line] };
  await lead.record('delivery-received', paper, { at: at('04:00') });
  const { body } = await n.night.lead.get(`/sites/${n.night.house.site}/night`).expect(200);
  const begin = { formulaVersion: String(body.rows.formulaVersion[0].id), station: n.night.mixer, plan: null, bakeDay: '2026-11-25' };
  dough = (await lead.record('make-begun', { ...begin, plannedMg: 25_000_000 }, { at: at('04:10') })).id;
  const used = { material: flour, lot: sack, quantity, how: 'weighed' as const, type: 'ingredient' as const };
  await lead.record('weighed-in', { make: dough, lines: [used] }, { at: at('04:20') });
  await lead.record('hold-placed', { lot: sack, deviation: null }, { at: at('05:00'), words: { because: 'mites' } });
  await n.enrolAndTap('Ines Pellow');
});
afterAll(() => n?.close());

const standing = () => n.page.locator('.lot-standing');
const lift = () => standing().getByRole('button', { name: /^Lift the hold on / });

describe('a lot that is on hold', () => {
  it('says on its page how that is ended: here by the hold on the sack that went in, though none of that is left', async () => {
    await n.page.goto(`/office/lot/${dough}`);
    await standing().getByText('On hold since').waitFor();
    await lift().waitFor();
    await n.picture('way-out-dough');
  });

  it('is freed on the page of what the hold is on, signed and with why', async () => {
    await n.page.goto(`/office/lot/${sack}`);
    await standing().getByText('none of it is left').waitFor();
    await standing().getByText('What was made of it: on hold: mites').waitFor();
    await n.picture('way-out-sack');
    await lift().click();
    await n.sheet().getByLabel(/^Why/).fill('the mill looked at its own sample: none');
    await n.sheet().getByRole('button', { name: /^Sign/ }).click();
    await typeOnPad(n.page, n.night.lead.pin);
    await n.page.locator('dialog').last().getByRole('button', { name: 'Go on' }).click();
    await lift().waitFor({ state: 'detached' });
    await n.page.goto(`/office/lot/${dough}`);
    await standing().getByText('Not on hold').waitFor();
    expect(await lift().count()).toBe(0);
  });
});
