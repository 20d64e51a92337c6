import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { NightTable } from './_night.js';
import { typeOnPad } from './_page.js';

let n: NightTable;
beforeAll(async () => {
  n = await NightTable.open('10:00');
  await n.enrolAndTap('Ines Pellow');
});
afterAll(() => n?.close());

const point = (name: string) => n.page.getByRole('group', { name });
/** Why a control point may let more through, and what that rests on. */
const because = async (legend: string): Promise<void> => {
  const loosened = point(legend);
  await loosened.getByLabel('Why it may let this through').fill('A smaller loaf, cooked through');
  await loosened.getByLabel('Who validated it').fill('The consultant');
  await loosened.getByLabel('On what').fill('Twelve loaves with a probe');
  await loosened.getByLabel('Validated on').fill('2026-11-02');
};
const givePin = async (pin: string): Promise<void> => {
  await typeOnPad(n.page, pin);
  await n.sheet().getByRole('button', { name: 'Go on' }).click();
};

describe('the next version of the plan', () => {
  it('is begun from the one in force, and shows what it changes in words', async () => {
    await n.page.goto('/office/plan');
    await n.page.getByText('Version 1, in force since').waitFor();
    await n.tap('The next version');
    await n.sheet().waitFor(); // writing a plan wants the PIN
    await givePin(n.night.lead.pin);
    await n.tap('Begin a draft from the version in force');
    await n.page.getByText('Draft for version 2').waitFor();
    await n.picture('plan-draft');
    const core = point('Core of the coldest bloomer');
    await core.getByLabel('From, at least').fill('94');
    await core.getByLabel('One more product').selectOption({ label: 'White tin 800 g' });
    await core.getByRole('button', { name: 'Core of the coldest bloomer: take out Bloomer 400 g' }).click();
    await core.getByLabel('Name').fill('Core, coldest piece');
    await n.page.getByLabel('Past its life once opened').selectOption('hold');
    await n.tap('Save');
    await n.page.getByRole('button', { name: 'Saved' }).waitFor();
    expect(await n.main().textContent()).toMatch(/past its life, once opened: warn → hold/);
    expect(await n.main().textContent()).toMatch(/name: Core of the coldest bloomer → Core, coldest piece/);
    expect(await n.main().textContent()).toMatch(/limit, from: 93 → 94/);
    expect(await n.main().textContent()).toMatch(/for which products: put in, White tin 800 g/); // and not its id
    await because('Core of the coldest bloomer: no longer for Bloomer 400 g');
    await n.tap('Save');
    await n.page.getByRole('button', { name: 'Saved' }).waitFor();
  });

  it('is not whole with a point that says nothing, and says what is missing in words', async () => {
    await n.tap('One more point');
    await n.page.getByLabel('Measured where').last().selectOption('ph');
    await n.page.getByLabel('To, at most').last().fill('4.6');
    await n.page.getByLabel('Unit').last().selectOption({ label: 'pH' });
    await n.tap('Save');
    await n.page.getByText('Still to do before it can be signed').waitFor();
    expect(await n.main().textContent()).toMatch(/name: Required/);
    expect(await n.main().textContent()).not.toContain('limit, unit'); // pH is a unit that a plan takes
    await n.picture('plan-to-do');
    await n.page
      .getByRole('button', { name: /^Take out/ })
      .last()
      .click();
    await n.tap('Save');
    await n.page.getByText('It is whole. Whether its limits are safe').waitFor();
  });

  it('is in force from the signature on, and the earlier one stays readable', async () => {
    await n.tap('In force from now on: version 2');
    expect(await n.sheet().textContent()).toContain('no longer for Bloomer 400 g');
    await n.tap('Sign all the same');
    expect(await n.sheet().textContent()).toContain('I have read each limit and what it rests on');
    await givePin(n.night.lead.pin);
    await n.page.getByText('Version 2, in force since').waitFor();
    expect(await n.main().textContent()).toContain('Core, coldest piece');
    await n.page.getByText(/version 1: Wed 25 Nov 09:00 to Wed 25 Nov 10:00/).click();
    const earlier = n.page.locator('details', { hasText: 'version 1: ' });
    await earlier.getByRole('heading', { name: 'Core of the coldest bloomer' }).waitFor();
    await n.page.getByText(/version 2: .* until now/).click();
    expect(await n.page.locator('details', { hasText: 'version 2: ' }).textContent()).toMatch(
      /Changed from version 1.*limit, from: 93 → 94/,
    );
    await n.picture('plan');
  });

  it('says before it is signed that what the version in force holds stays on hold, where it only warns of that', async () => {
    await n.tap('The next version');
    await n.tap('Begin a draft from the version in force');
    await n.page.getByText('Draft for version 3').waitFor();
    const stays = n.main().locator('p', { hasText: /^Stays on hold:/ });
    expect(await stays.count()).toBe(0);
    await n.page.getByLabel('Past its life once opened').selectOption('warn');
    expect(await stays.textContent()).toBe(
      'Stays on hold: the version in force holds food that is past its life once opened; this one only warns of it. ' +
        'What is on hold by then stays on hold until somebody signs a decision about it.',
    );
    await n.tap('Save');
    await because('Past its life once opened: on hold → only warned of');
    await n.tap('Save');
    await n.page.getByRole('button', { name: 'In force from now on: version 3' }).waitFor();
    expect(await stays.count()).toBe(1);
  });

  it('is not signed with a looser limit before somebody says why and what that rests on, and is asked once more above the PIN', async () => {
    const loosened = 'Core of the coldest bap: 92 °C or more → 40 °C or more';
    await point('Core of the coldest bap').getByLabel('From, at least').fill('40');
    await n.tap('Save');
    await point(loosened).waitFor();
    expect(await n.page.getByRole('button', { name: /^In force from now on/ }).count()).toBe(0);
    expect(await n.main().textContent()).toContain('40 °C without a time held is below what is usual for a core that makes food safe');
    await n.picture('plan-loosened');
    await because(loosened);
    await n.tap('Save');
    await n.tap('In force from now on: version 3');
    expect(await n.sheet().textContent()).toContain(`This lets through what the plan in force does not:${loosened}`);
    expect(await n.sheet().textContent()).toContain('a competent person has to show that this limit is safe');
    await n.picture('plan-asked-once-more');
    await n.tap('Back to the draft');
    await n.tap('In force from now on: version 3');
    await n.tap('Sign all the same');
    expect(await n.sheet().textContent()).toContain(loosened);
    await n.picture('plan-above-the-pin');
    await givePin(n.night.lead.pin);
    await n.page.getByText('Version 3, in force since').waitFor();
    const said = 'Why: A smaller loaf, cooked through. Validated by The consultant on 2 Nov 2026, on: Twelve loaves with a probe.';
    expect(await n.main().locator('li', { hasText: loosened }).first().textContent()).toBe(`${loosened}. ${said}`);
    const core = n.page.locator('details', { hasText: 'version 3: ' }).locator('li.card', { hasText: 'Core of the coldest bap' });
    await n.page.getByText(/version 3: .* until now/).click();
    expect(await core.textContent()).toContain(
      '(for the limit as it was loosened, The consultant is stated to have validated it on 2 Nov 2026, on: Twelve loaves with a probe)',
    );
    const dough = n.page.locator('details', { hasText: 'version 3: ' }).locator('li.card', { hasText: 'Dough temperature' });
    expect(await dough.textContent()).toContain('(nobody has recorded a validation)');
    await n.picture('plan-what-was-loosened');
    // What had to be looked at before the PIN is there still, with who signed it all the same.
    const low = n.page.locator('.notice', { hasText: /^Low limits, signed all the same by / });
    await low
      .getByText(/40 °C without a time held is below what is usual/)
      .first()
      .waitFor();
    await n.page.goto('/office/officer');
    await n.heading('For the officer').waitFor();
    await n.page.locator('.figures').waitFor();
    await n.picture('officer-limits-first');
    const first = n.page.locator('section').first();
    await first.getByText(loosened).waitFor();
    expect(await first.getByRole('heading').first().textContent()).toMatch(/^Look at first: limits of .*, version 3$/);
    await first.getByText(/^Low limits, signed all the same by /).waitFor();
    await n.page.goto('/office/plan');
  });

  it('is nobody’s to write who does not answer for food safety', async () => {
    await n.page.getByRole('button', { name: /is signed on/ }).click();
    await n.tap('Tam Wick');
    await n.page.getByRole('button', { name: /^Tam Wick is signed on/ }).waitFor();
    await n.page.goto('/office/plan/drafts');
    await n.heading('This is for others').waitFor();
    await n.main().getByText('Only a food-safety lead may write and approve plans.').waitFor();
    expect(await n.page.getByRole('button', { name: /^Begin a draft/ }).count()).toBe(0);
  });

  it('fits under a finger everywhere', () => {
    expect([...n.awkward]).toEqual([]);
  });
});
