import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { NightTable } from './_night.js';
import { typeOnPad } from './_page.js';

let n: NightTable;
beforeAll(async () => {
  n = await NightTable.open('10:00');
  await n.enrolAndTap('Ines Pellow');
});
afterAll(() => n?.close());

const givePin = async (pin: string): Promise<void> => {
  await n.page.getByRole('heading', { name: /your PIN/ }).waitFor();
  await typeOnPad(n.page, pin);
  await n.page.getByRole('button', { name: 'Go on' }).click();
};
const signWith = async (pin: string): Promise<void> => {
  await n.page.getByRole('heading', { name: /: sign$/ }).waitFor();
  await typeOnPad(n.page, pin);
  await n.page.getByRole('button', { name: 'Go on' }).click();
};
const text = (): Promise<string | null> => n.main().textContent();

describe('what a house knows of its materials, and who is in it', () => {
  it('takes a new version of a specification with an allergen more, and says first where it goes', async () => {
    await n.page.goto('/office');
    await n.place('Catalogue');
    await n.page.getByLabel('Find it by name').fill('flour');
    await n
      .row(/^White flour/)
      .getByRole('cell', { name: 'wheat', exact: true })
      .waitFor();
    await n.picture('materials');
    await n.tap(/^White flour/);
    await n.tap('A new version');
    await n.page.getByText('soybeans: nothing marked').click();
    await n.page
      .getByRole('group', { name: /^Soybeans/ })
      .getByText('may contain')
      .click();
    await n.page.getByText('It now may contain soya.').waitFor();
    const said = await text();
    expect(said).toMatch(/goes into the formulas White dough/);
    expect(said).toMatch(/Bap, Bloomer 400 g, White tin 800 g/);
    expect(said).toContain('Labels, tickets and allergen cards that were printed before no longer hold');
    await n.page.getByLabel('Days it keeps').fill('a week');
    await n.page.getByText('Whole days, from 1 to 3650').waitFor();
    expect(await n.page.getByRole('button', { name: 'Accept it from now on' }).isDisabled()).toBe(true);
    await n.picture('specification');
    await n.page.getByLabel('Days it keeps').fill('180');
    const accept = n.page.getByRole('button', { name: 'Accept it from now on' });
    expect(await accept.isDisabled()).toBe(true); // nobody said yet whether it was checked
    await n.page.getByText('the supplier’s specification').click();
    expect(await accept.isDisabled()).toBe(true); // nor when
    await n.page.getByLabel('Checked on').fill('2026-01-02');
    await n.tap('Accept it from now on');
    await givePin(n.night.lead.pin); // a tapped name does not decide this
    await n.page
      .locator('.row', { hasText: 'in force' })
      .getByText(/may contain soya; nothing else, checked against the supplier’s specification on/)
      .waitFor();
    expect(await n.page.locator('.row', { hasText: 'earlier' }).textContent()).not.toContain('soya');
    await n.picture('material');
  });

  it('asks how a new material is kept, and takes it for nothing that nobody said', async () => {
    await n.page.goto('/office/catalogue');
    await n.tap('A new material');
    await n.main().getByRole('textbox', { name: 'Name' }).fill('Barley malt');
    await n.main().getByText('nobody has checked', { exact: false }).first().click();
    const accept = n.page.getByRole('button', { name: 'Accept it from now on' });
    await n.main().getByText('Say how it is kept').waitFor();
    expect(await n.main().getByRole('group', { name: 'Kept' }).getByRole('radio', { checked: true }).count()).toBe(0);
    expect(await accept.isDisabled()).toBe(true);
    await n.main().getByRole('group', { name: 'Kept' }).getByText('on the shelf').click();
    expect(await accept.isDisabled()).toBe(false);
  });

  it('knows a customer with whom to ring, among the first', async () => {
    await n.page.goto('/office/catalogue/parties');
    await n.page.getByText('Nobody is on the list yet').waitFor();
    await n.tap('Somebody new');
    await givePinIfAsked();
    await n.main().getByLabel('Name').fill('Mill Lane school');
    await n.main().getByLabel('Contact in a recall').fill('Bo Quill');
    await n.main().getByLabel('Telephone').fill('01632 960 001');
    await n
      .main()
      .getByRole('group', { name: /^Do children/ })
      .getByText('yes')
      .click();
    await n.picture('party-sheet');
    await n.tap('Accept it from now on');
    const row = n.row(/Mill Lane school/);
    await row.getByText('contact first').waitFor();
    await n.page.setViewportSize({ width: 1440, height: 900 });
    await row.getByText('Bo Quill, 01632 960 001').waitFor();
    expect(await row.textContent()).toContain('contact first');
    await n.picture('parties');
  });

  it('takes a store into use and a probe out of use', async () => {
    await n.page.goto('/office/catalogue/places');
    await n.tap('One more place');
    await n.sheet().getByLabel('Name').fill('Flour store');
    await n.sheet().getByRole('group', { name: 'What it is' }).getByText('store', { exact: true }).click();
    await n.picture('place-sheet');
    await n.sheet().getByRole('button', { name: 'In use from now on' }).click();
    await givePinIfAsked();
    await n.row(/^Flour store/).waitFor();
    await n.tap(/^Probe P1/);
    await n.tap('Out of use from now on');
    await n
      .main()
      .getByText(/out of use since/)
      .waitFor();
    await n.tap(/Places and probes/);
    await n
      .row(/^Probe P1/)
      .getByText('out of use since')
      .waitFor();
    await n.picture('places');
  });

  it('lets somebody look as an inspector, and nobody sign on who left', async () => {
    await n.page.getByRole('button', { name: /is signed on/ }).click();
    await n.tap('Ada Min');
    await n.page.getByRole('button', { name: /^Ada Min is signed on/ }).waitFor();
    await n.page.goto('/office/people');
    await givePinIfAsked(n.night.house.administrator.pin);
    // several parts of that page need the PIN: it is asked for once, and all of them go on
    await n.main().getByText('No inspector has looked at anything yet.').waitFor();
    await n.main().getByRole('heading', { name: 'At the door' }).waitFor();
    await n.tap(/^Oona Firth/);
    await n.main().getByText('Let them look as an inspector').click();
    await n.main().getByRole('button', { name: 'Let them look' }).click();
    await signWith(n.night.house.administrator.pin); // however one signed on, each time
    await n
      .main()
      .getByText(/inspector, records from/)
      .waitFor();
    await n.picture('person');
    await n.main().getByText('They leave').click();
    await n.main().getByRole('button', { name: 'They have left' }).click();
    await signWith(n.night.house.administrator.pin);
    await n
      .main()
      .getByText(/^Left .*They cannot sign on/)
      .waitFor();
    await n.picture('person-left');
    await n.tap(/People and tablets/);
    await n
      .row(/^Oona Firth/)
      .getByText(/left Wed 25 Nov/)
      .waitFor();
    await n.page.getByRole('button', { name: /is signed on/ }).click();
    await n.page.getByRole('button', { name: 'Oona Firth' }).waitFor({ state: 'detached' });
    await n.page.getByRole('button', { name: 'Tam Wick' }).waitFor();
  });

  it('fits under a finger everywhere', () => {
    expect([...n.awkward]).toEqual([]);
  });
});

/** A page that was loaded anew asks again; one that was not does not. */
async function givePinIfAsked(pin = n.night.lead.pin): Promise<void> {
  const asked = n.page.getByRole('heading', { name: /your PIN/ });
  const form = n.page.locator('main input, main table').first();
  await asked.or(form).first().waitFor();
  if (await asked.isVisible()) await givePin(pin);
}
