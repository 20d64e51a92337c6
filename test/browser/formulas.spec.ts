import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { save } from '../support/drafts.js';
import { NightTable } from './_night.js';
import { typeOnPad } from './_page.js';

let n: NightTable;
beforeAll(async () => {
  n = await NightTable.open('10:00', { offLine: true });
  await n.enrolAndTap('Ines Pellow');
});
afterAll(() => n?.close());

const field = (label: string | RegExp) => n.main().getByLabel(label, { exact: true });
const givePin = async (): Promise<void> => {
  await typeOnPad(n.page, n.night.lead.pin);
  await n.sheet().getByRole('button', { name: 'Go on' }).click();
};
const weights = () => n.page.locator('section', { hasText: 'What goes in' }).locator('.lines tr td:nth-child(2)').allTextContents();

describe('a formula on its page, without a network', () => {
  beforeAll(async () => {
    await n.page.goto('/office/formulas');
    await n.tap('White dough');
    await n.heading('White dough, version 1').waitFor();
    await n.context.setOffline(true);
  });
  afterAll(() => n.context.setOffline(false));

  // by hand: 40 × 910 g is shared out by 25 000 : 15 000 : 450 : 500 : 500, largest remainder
  it('is scaled to pieces, and what is weighed sums to the whole', async () => {
    await n.main().getByText('for pieces', { exact: true }).click();
    await field('White tin 800 g, of 910 g').fill('40');
    expect(await weights()).toEqual(['21,954 g', '13,173 g', '395 g', '439 g', '439 g', '36,400 g']);
  });

  it('is scaled to pounds, and weighed in pounds and ounces', async () => {
    await n.main().getByText('for a weight', { exact: true }).click();
    await n.main().getByText('pounds and ounces', { exact: true }).click();
    await field('Dough in all').fill('10');
    expect(await weights()).toEqual(['6 lb 0.5 oz', '3 lb 9.9 oz', '1.8 oz', '1.9 oz', '1.9 oz', '10 lb 0.0 oz']);
  });

  // by hand: 3 × 26 − 21 − 24 − 14 = 19; 15 kg × (21 − 19) ÷ (21 + 80) = 0.297 kg
  it('says how warm the water must be, by what, and how much ice it takes', async () => {
    await field('Flour').fill('21');
    await field('Room').fill('24');
    await field('Water from the tap').fill('21');
    await n.page.getByText('Water of 19.0 °C, that is 66.2 °F').waitFor();
    await n.page.getByText('0.297 kg of ice in 14.703 kg of tap water').waitFor();
    expect(await n.main().textContent()).toMatch(/common practice of the trade.*the formula expects: no mix on this mixer compares/);
    await n.picture('formula');
  });
});

describe('two people on one draft', () => {
  it('the second to save is told who came first, and nothing of either is lost', async () => {
    const ola = await n.night.house.signedOn('Ola Mill', ['manager']);
    await n.page.goto('/office/drafts');
    await n.sheet().waitFor(); // writing a formula wants the PIN
    await givePin();
    await field('From').selectOption({ label: 'White dough, dough' });
    await n.tap('Begin');
    await n.page.getByText('Draft for version 2').waitFor();
    const path = `/formulas/drafts/${new URL(n.page.url()).pathname.split('/').at(-1) ?? ''}`;
    const { body } = await ola.get(path).expect(200);
    body.content.content.lines[2].mg = 475_000;
    await save(n.t, ola, path, body.content, '"1"').expect(200);
    await field('Grams of line 2').fill('15500');
    await n.tap('Save');
    await n.page.getByText(/^Ola Mill saved this at .* Nothing of yours is lost\./).waitFor();
    await n.picture('formula-two');
    await n.tap('Put both together');
    await n.tap('Save');
    await n.page.getByRole('button', { name: 'Saved' }).waitFor();
    expect([await field('Grams of line 2').inputValue(), await field('Grams of line 3').inputValue()]).toEqual(['15500', '475']);
  });

  it('is in force from the signature on; what it changed stands beside it, and the version before stays readable', async () => {
    await n.tap('Approve version 2');
    await givePin();
    await n.heading('Drafts of formulas').waitFor();
    await n.place('Formulas');
    await n.tap(/^White dough/);
    await n.heading('White dough, version 2').waitFor();
    expect(await n.main().textContent()).toMatch(/Changed from version 1.*Water, weight: 15 kg → 15\.5 kg.*Salt, weight: 450 g → 475 g/);
    await n.picture('formula-versions');
    await n.tap('White dough, version 1');
    await n.heading('White dough, version 1').waitFor();
    expect(await weights()).toContain('15 kg');
  });

  it('is retired by the manager, and is not offered any more', async () => {
    await n.page.goBack();
    await n.page.goBack();
    await n.tap('Drafts');
    await field('Which').selectOption({ label: 'White dough' });
    await n.picture('formula-drafts');
    await n.tap('Retire this formula');
    await n.sheet().getByRole('button', { name: 'Retire it' }).click();
    await n.place('Formulas');
    await n.page.getByText('No formula is approved yet').waitFor();
  });

  it('fits under a finger everywhere', () => {
    expect([...n.awkward]).toEqual([]);
  });
});
