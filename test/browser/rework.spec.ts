import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { Hand } from '../support/hand.js';
import { NightTable } from './_night.js';
import { typeOnPad } from './_page.js';

let n: NightTable;
beforeAll(async () => {
  n = await NightTable.open('10:00');
  await n.enrolAndTap('Ines Pellow');
});
afterAll(() => n?.close());

const field = (label: string) => n.main().getByLabel(label, { exact: true });
const givePin = async (): Promise<void> => {
  await typeOnPad(n.page, n.night.lead.pin);
  await n.sheet().getByRole('button', { name: 'Go on' }).click();
};
const rows = async (name: string): Promise<readonly Record<string, unknown>[]> =>
  (await n.night.lead.get(`/sites/${n.night.house.site}/night?day=2026-11-25`).expect(200)).body.rows[name];

describe('the rule of a formula about rework', () => {
  it('is written in the office, and stands on its page and in what the version changed', async () => {
    await n.page.goto('/office/drafts');
    await n.sheet().waitFor();
    await givePin();
    await field('From').selectOption({ label: 'White dough, dough' });
    await n.tap('Begin');
    await n.page.getByText('Draft for version 2').waitFor();
    await n.tap('Say what may be put back');
    await n.tap('One more that may be put back');
    await field('May be put back 1').selectOption({ label: 'White dough' });
    await field('At most of the flour').fill('10');
    await field('The same food at most').fill('1');
    await n.picture('rework-editor');
    await n.tap('Save');
    await n.page.getByRole('button', { name: 'Saved' }).waitFor();
    await n.tap('Approve version 2');
    await givePin();
    await n.heading('Drafts of formulas').waitFor();
    await n.place('Formulas');
    await n.tap(/^White dough/);
    await n.heading('White dough, version 2').waitFor();
    const page = (await n.main().textContent()) ?? '';
    expect(page).toContain('May be put back: White dough; only what was made here.');
    expect(page).toContain('At most 10 % of the flour, as it is weighed in.');
    expect(page).toContain('rework: nothing → White dough, at most of the flour 10 %, the same food at most 1 time');
  });

  it('is said at the table before the tap, without a network, and asks once more', async () => {
    const lead = new Hand(n.night.house, n.night.lead);
    const version = (await rows('formulaVersion')).find((v) => v['number'] === 2);
    const of = { formulaVersion: String(version?.['id']), station: n.night.mixer, plan: null, bakeDay: '2026-11-25', plannedMg: null };
    const flour = { material: n.night.materials.flour, lot: null, how: 'weighed' as const, type: 'ingredient' as const };
    const begun = async (grams: string): Promise<string> => {
      const { id: make } = await lead.record('make-begun', of);
      await lead.record('weighed-in', { make, lines: [{ ...flour, quantity: { figure: grams, unit: 'g' } }] });
      return make;
    };
    await begun('5000');
    const make = await begun('1000');
    await n.page.goto(`/table/make/${make}/weigh`);
    await n.main().getByText('rework', { exact: true }).click();
    await n.main().getByText('May be put back: White dough; only what was made here.').waitFor();
    await n.context.setOffline(true);
    await n
      .main()
      .getByRole('button', { name: /^\+ White dough, / })
      .first()
      .click();
    // 140 g on 1,000 g of flour are 14 %
    await typeOnPad(n.page, '140');
    const what = 'White dough: at most 10 % of the flour; this makes 14 %';
    await n.sheet().getByText(what).waitFor();
    await n.picture('rework-against');
    await n.sheet().getByRole('button', { name: 'Take it' }).click();
    const asked = n.sheet().filter({ hasText: 'Use it all the same?' });
    await asked.getByText(what).waitFor();
    expect((await rows('flow')).filter((f) => f['type'] === 'rework')).toEqual([]);
    await n.context.setOffline(false);
    await n.sends(() => asked.getByRole('button', { name: 'Use it all the same' }).click());
    expect((await rows('deviation')).map((d) => [d['type'], d['subject'], d['summary']])).toEqual([['rework-against-rule', make, what]]);
  });

  it('fits under a finger everywhere', () => {
    expect([...n.awkward]).toEqual([]);
  });
});
