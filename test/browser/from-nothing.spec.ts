import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { Browser, Locator, Page } from 'playwright-core';
import { startTestApp, type TestApp } from '../support/app.js';
import { House } from '../support/people.js';
import { RunningClock } from '../support/running-clock.js';
import { countedPage, type Hand } from './_counted.js';
import { firstMaterials, firstSite } from './_first-materials.js';
import { builtPages, openBrowser, keepPicture, typeOnPad, untilSent } from './_page.js';

let t: TestApp;
let house: House;
let browser: Browser;
let office: Page;
const begun = performance.now();
const hand: Hand = { taps: 0, typed: 0 };
beforeAll(async () => {
  t = await startTestApp({ webFolder: builtPages(), clock: new RunningClock('2026-11-25T04:00:00Z') });
  await t.app.listen(0, '127.0.0.1');
  house = await House.found(t);
  browser = await openBrowser();
  office = await counted();
});
afterAll(async () => {
  process.stdout.write(
    `from nothing to a first released batch: ${hand.taps} taps, ${hand.typed} characters, ${Math.round((performance.now() - begun) / 1000)} s by machine\n`,
  );
  await browser?.close();
  await t?.close();
});

const counted = (): Promise<Page> => countedPage(browser, t, hand);
const main = (page = office): Locator => page.locator('main');
const sheet = (page = office): Locator => page.locator('dialog[open]').last();
const key = (name: string | RegExp, within: Locator = main()): Locator =>
  within.getByRole('button', { name }).or(within.getByRole('link', { name })).first();
const type = async (label: string | RegExp, text: string, within: Locator = sheet()): Promise<void> => {
  hand.typed += text.length;
  await within.getByLabel(label).first().fill(text);
};
const givePin = async (page = office): Promise<void> => {
  await typeOnPad(page, house.administrator.pin);
  await sheet(page).getByRole('button', { name: 'Go on' }).click();
};
/** A PIN that was given a moment ago is not asked for again. */
const givePinIfAsked = async (): Promise<void> => {
  const asked = office.getByRole('heading', { name: /your PIN/ });
  await asked.or(main().locator('input')).first().waitFor();
  if (await asked.isVisible()) await givePin();
};
/** Taps what makes a record; the page is left only once the service has it. */
const records = (name: string | RegExp, within?: Locator): Promise<void> => untilSent(office, () => key(name, within).click());
/** Back to the guide by its key on the office’s first page, and what it says is next. */
async function guide(next: string): Promise<void> {
  await office.getByRole('link', { name: 'Overview', exact: true }).click();
  await key('Set-up', main().locator('.setup-home')).click();
  await main().locator('.next', { hasText: next }).waitFor();
}
const goOn = (): Promise<void> => main().locator('.next .button.go').click();
const picture = (name: string, page = office): Promise<void> => keepPicture(page, name);

const inTable = (name: string): Promise<void> =>
  main()
    .getByRole('row', { name: new RegExp(`^${name}`) })
    .waitFor();

async function place(name: string, type_: string): Promise<void> {
  await key('One more place').click();
  await type('Name', name);
  await sheet().getByRole('group', { name: 'What it is' }).getByText(type_, { exact: true }).click();
  await key('In use from now on', sheet()).click();
  await inTable(name);
}

describe('a house of its own, from nothing', () => {
  it('is told first what is missing, where the office begins', async () => {
    await office.goto('/office');
    await office.getByRole('button', { name: /^Ada Min/ }).click();
    await givePin();
    await main().getByRole('heading', { name: 'Set-up: 0 of 14 steps are done' }).waitFor();
    const first = await main().locator('section, .find').first().textContent();
    expect(first).toContain('People, with their PINs');
    await picture('home');
    await key('Set-up', main().locator('.setup-home')).click();
    await main().getByText('Here: Ada Min').first().waitFor();
    await picture('guide');
  });

  it('somebody alone takes the roles that it needs, and the tablet is enrolled', async () => {
    await goOn();
    await main()
      .getByRole('link', { name: /^Ada Min/ })
      .click();
    for (const role of ['manager', 'food-safety lead']) {
      await main().getByText('Give a role').click();
      await main().getByText(role, { exact: true }).last().click();
      await key('Give it, at every site', main()).click();
      await givePin();
      await key(`Take it away: ${role}`).waitFor();
      await main().getByText('Give a role').click();
    }
    await key('People and tablets').click();
    await key('A code for a new tablet').click();
    await givePin();
    const code = /new tablet: (\S+)/.exec((await main().getByText('Type on the new tablet').textContent()) ?? '')?.[1] ?? '';
    const table = await counted();
    await table.goto('/');
    await table.getByText('Make this one of the bakehouse’s tablets').click();
    await type('Code', code, main(table));
    await key('Enrol', main(table)).click();
    await table.locator('.hall').getByText('Table').waitFor();
    await table.context().close();
  });

  it('says where it is, and whom it informs first', async () => {
    await guide('The site, with its authority');
    await goOn();
    for (const [label, text] of firstSite) await type(label, text, main());
    await key('Write it down').click();
    await givePinIfAsked();
    await main()
      .getByText(/^As it was written down/)
      .waitFor();
    await picture('site');
  });

  it('has places and a probe that was checked', async () => {
    await guide('Places');
    await goOn();
    await place('Mixer', 'mixer');
    await place('Deck oven', 'oven');
    await place('Fridge', 'fridge');
    await key('One more instrument').click();
    await type('Name', 'Probe 1');
    await type(/^Accuracy/, '0.5');
    await key('In use from now on', sheet()).click();
    await guide('What is measured with');
    await key(/^The first check of Probe 1/).click();
    await typeOnPad(office, '0.1');
    await records('Record it');
    await main().getByText('right').first().waitFor();
    await office.goto('/office');
  });

  it('has a supplier, and materials from a sheet with what they contain and who checked it', async () => {
    await guide('Suppliers');
    await goOn();
    await key('Somebody new').click();
    await givePinIfAsked();
    await main().getByRole('group', { name: 'What they are to us' }).getByText('supplier', { exact: true }).click();
    await type('Name', 'Test Mill', main());
    await type('Telephone', '01632 960 001', main());
    await key('Accept it from now on').click();
    await inTable('Test Mill');
    await guide('Materials');
    await key('From a sheet', main().locator('.next')).click();
    const buffer = Buffer.from(firstMaterials);
    const chosen = office.waitForEvent('filechooser');
    await key('Choose a sheet').click();
    await (await chosen).setFiles({ name: 'materials.csv', mimeType: 'text/csv', buffer });
    await main().getByText('4 materials would be added, 0 are there already, 1 thing is wrong').waitFor();
    await main().getByText('Line 6, column D, “Contains”: “gluten” names no single allergen').waitFor();
    await key('Add 4 materials').click();
    await main().getByText('4 on the list now').waitFor();
    await picture('sheet-added');
  });

  it('has a formula from a starter, approved by somebody of its own', async () => {
    await guide('A formula, approved');
    await key('Starters', main().locator('.next')).click();
    const card = main().locator('.card', { hasText: 'Plain tin loaf' });
    await card.getByText('Not on your list: Plain tin dough, Plain tin loaf 800 g').waitFor();
    await picture('starters');
    await key('Put 2 of these on the list', card).click();
    await card.getByText('Not on your list').waitFor({ state: 'detached' });
    await key('Take it into my drafts', card).click();
    await main().getByText('Still to do before it can be signed').waitFor();
    await main().getByRole('group', { name: 'Plain tin loaf 800 g' }).getByLabel('Keeps').fill('3');
    hand.typed += 1;
    await key('Save').click();
    await picture('formula');
    await key('Approve version 1').click();
    await givePin();
    await main().getByRole('heading', { name: 'Drafts of formulas' }).waitFor();
  });

  it('has a plan from a starter only once its own evidence stands in place of the starter’s words', async () => {
    await guide('A plan, in force');
    await key('Starters', main().locator('.next')).click();
    await key('Take this plan into my drafts').click();
    await main().getByText('Still to do before it can be signed').waitFor();
    expect(await key(/^In force from now on/).count()).toBe(0);
    const bases = main().getByLabel('Basis', { exact: true });
    for (const base of await bases.all()) {
      expect(await base.inputValue()).toContain('not validated');
      await base.tap();
      await base.fill('For this test, no validated limit');
      hand.typed += 33;
    }
    await key('Save').click();
    await main().getByText('It is whole. Whether its limits are safe').waitFor();
    await picture('plan');
    await key('In force from now on: version 1').click();
    await givePin();
    await main().getByText('Version 1, in force since').waitFor();
  });

  it('takes its first flour in', async () => {
    await guide('The first delivery');
    await goOn();
    await key(/^Strong white flour/).click();
    await typeOnPad(office, '25');
    await type('The code on it', 'Q4471');
    await key('Put it on the list', sheet()).click();
    await records('Record 1 line');
    await main().getByRole('heading', { name: 'On record' }).waitFor();
    await office.goto('/office');
  });

  it('opens the sack at the mixer', async () => {
    await guide('The first sack, opened');
    await goOn();
    await key(/^Strong white flour/).click();
    await records(/Q4471/, sheet());
    await main().getByText('Q4471').first().waitFor();
    await office.goto('/office');
  });

  it('makes its first dough', async () => {
    await guide('The first dough');
    await goOn();
    await key(/Plain tin loaf/).click();
    await key(/^Begin /).click();
    await key('Weigh in').click();
    await picture('weigh');
    await key(/^Weigh in \d/).click();
    await key('Mixed').click();
    await key(/^Dough/).click();
    await typeOnPad(office, '26');
    await key(/^Record the mix/).click();
    await main().locator('.verdict').first().waitFor();
    await key('Make up into products').click();
    await picture('make-up');
    await records('Record the make-up');
  });

  it('bakes it, reads its core and releases it, and the office asks no more', async () => {
    await office.goto('/office');
    await guide('The first load');
    await goOn();
    await picture('load');
    await key(/^Plain tin loaf 800 g.*waiting/).click();
    await key('In it goes').click();
    await main().getByText('So far').waitFor();
    await records('Take out');
    await picture('out');
    await office.goto('/table');
    await main()
      .getByRole('link', { name: /Plain tin loaf 800 g.*core temperature/ })
      .first()
      .click();
    await typeOnPad(office, '96.1');
    await records(/^Record/);
    await main().locator('.verdict').waitFor();
    await office.goto('/office');
    await guide('The first released batch');
    await goOn();
    await main().getByRole('heading', { name: 'Today’s bake' }).waitFor();
    await picture('today');
    await main()
      .getByRole('link', { name: /^Plain tin loaf 800 g: / })
      .first()
      .click();
    await key('Count out').click();
    await key(/^Count out \d/).click();
    await main().getByText('counted').first().waitFor();
    await records('Release');
    await main()
      .getByText(/released/i)
      .first()
      .waitFor();
    await picture('released');
    await office.goto('/office');
    await main().getByRole('link', { name: 'Set-up: what this house has' }).click();
    await main().locator('.setup-lead').waitFor();
    expect(await main().locator('.setup-steps > li:not(.done)').allTextContents()).toEqual([]);
    expect(await main().locator('.setup-lead').textContent()).toContain('14 of 14 steps are done');
    await picture('done');
    await office.getByRole('link', { name: 'Overview', exact: true }).click();
    await main()
      .getByRole('heading', { name: /^Open deviations/ })
      .waitFor();
    expect(await main().locator('.setup-home').count()).toBe(0);
  });
});
