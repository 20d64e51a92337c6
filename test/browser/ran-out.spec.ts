import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { uuidv7 } from '../../apps/api/src/platform/ids/index.js';
import { Hand } from '../support/hand.js';
import { NightTable } from './_night.js';
import { retypeOnPad } from './_page.js';

let n: NightTable;
let lead: Hand;
const lots: Record<string, string> = {};
beforeAll(async () => {
  n = await NightTable.open('02:00');
  lead = new Hand(n.night.house, n.night.lead);
  for (const code of ['Q-1', 'Q-2']) lots[code] = await came(code);
  await lead.record('lot-opened', { station: n.night.mixer, material: n.night.materials.flour, lot: lots['Q-1'] ?? null, beside: false });
  await n.enrolAndTap('Tam Wick');
});
afterAll(() => n?.close());

/** A sack of flour of 25 kg: each holds more than the half dough takes. */
async function came(code: string): Promise<string> {
  const lot = uuidv7(n.clock.now());
  const of = { lot, material: n.night.materials.flour, quantity: { figure: '25', unit: 'kg' as const }, asWritten: null };
  const lines = [{ ...of, bestBefore: null, useBy: null, code, codeState: 'on-it' as const, temperature: null }];
  await lead.record('delivery-received', { supplier: null, noteNumber: null, photo: null, unattended: false, lines });
  return lot;
}

const flour = () => n.main().getByRole('row', { name: /White flour/ });
/** Code and amount of each line of flour. */
const parts = async (): Promise<string[]> =>
  (
    await flour()
      .all()
      .then((rows) => Promise.all(rows.map((r) => r.textContent())))
  ).map((text) =>
    [/Q-\d/.exec(text ?? '')?.[0], /(how much\?|nothing of it|[\d.,]+ k?g)/.exec((text ?? '').replace(/Q-\d/, ' '))?.[0]].join(' '),
  );

async function type(code: string, grams: string): Promise<void> {
  await flour()
    .filter({ hasText: code })
    .getByRole('button', { name: /change/ })
    .click();
  await retypeOnPad(n.page, grams);
  await n.tap('Take it', n.sheet());
  await n.sheet().waitFor({ state: 'detached' });
}

describe('a sack that ran out although there was enough in it by the records', () => {
  it('stays a line, beside that of the next one, and both ask how much', async () => {
    await n.place('Start');
    await n.tap(/White dough/);
    await n.page.getByText('half', { exact: true }).click();
    await n.tap(/^Begin/);
    await n.page.getByText('planned').waitFor();
    await n.tap('Weigh in');
    expect(await parts()).toEqual(['Q-1 12.5 kg']);
    // Nothing is weighed yet: no line says that it is as it must be.
    expect(await n.main().locator('.weigh-state .mark.good').count()).toBe(0);
    await n.tap('White flour: ran out');
    await n.tap(/^Q-2/, n.sheet());
    await flour().filter({ hasText: 'Q-2' }).waitFor();
    expect(await parts()).toEqual(['Q-1 how much?', 'Q-2 how much?']);
    await n.main().getByText('Not in yet: White flour.').waitFor();
    await n.picture('ran-out-asked');
  });

  it('gives the rest to the other lot once one amount is typed, and shows both after “not sure which”', async () => {
    await type('Q-1', '4000');
    expect(await parts()).toEqual(['Q-1 4,000 g', 'Q-2 8,500 g']);
    await n.tap('White flour: not sure which');
    expect(await flour().count()).toBe(1);
    await n.tap('White flour: I know which');
    expect(await parts()).toEqual(['Q-1 4,000 g', 'Q-2 8,500 g']);
  });

  it('says before it is recorded that the amount is far from the formula', async () => {
    const said = n.main().getByText('68 % less than the formula');
    expect(await said.count()).toBe(0);
    await type('Q-2', '0.1');
    await n.main().getByRole('complementary').getByText('White flour: 68 % less than the formula').waitFor();
    await n.picture('far-from-the-formula');
    await type('Q-2', '8500');
    expect(await said.count()).toBe(0);
  });

  it('is recorded with both lots', async () => {
    await n.tap(/^Weigh in \d/);
    await n.page.getByText('Add or adjust').waitFor();
    await n.page.getByText('all sent').waitFor();
    const { body } = await n.night.lead.get(`/sites/${n.night.house.site}/night?day=2026-11-25`).expect(200);
    const flow: { source: string; mg: number; certain: boolean }[] = body.rows.flow;
    const of = (code: string) => flow.filter((f) => f.source === lots[code]).map((f) => [f.mg, f.certain]);
    expect([of('Q-1'), of('Q-2')]).toEqual([[[4_000_000, true]], [[8_500_000, true]]]);
  });

  it('is offered with what is left of it, not with what came', async () => {
    const lot = await came('Q-3');
    const { body } = await n.night.lead.get(`/sites/${n.night.house.site}/night?day=2026-11-25`).expect(200);
    const quantity = { figure: '24780', unit: 'g' as const };
    const line = { material: n.night.materials.flour, lot, quantity, how: 'weighed' as const, type: 'late-addition' as const };
    await lead.record('weighed-in', { make: String(body.rows.make[0].id), lines: [line] });
    await n.page.getByRole('button', { name: /^as of/ }).click();
    await n.place('Open lots');
    await n.tap('White flour: ran out');
    await n.sheet().getByRole('button', { name: /^Q-3/ }).getByText('220 g left by the records').waitFor();
    await n.tap(/^Q-3/, n.sheet());
    await n.sheet().waitFor({ state: 'detached' });
  });

  it('is said before the tap where a line takes more than is left, and the rest comes from another lot', async () => {
    await came('Q-4');
    await n.page.getByRole('button', { name: /^as of/ }).click();
    await n.place('Start');
    await n.tap(/White dough/);
    await n.page.getByText('half', { exact: true }).click();
    await n.tap(/^Begin/);
    await n.page.getByText('planned').waitFor();
    await n.tap('Weigh in');
    await flour().getByText('220 g left by the records: from which other lot?').waitFor();
    await n.main().getByText('Not in yet: White flour.').waitFor();
    await n.picture('more-than-is-left');
    await n.tap('White flour: the rest from another lot');
    await n.tap(/^Q-4/, n.sheet());
    await flour().filter({ hasText: 'Q-4' }).waitFor();
    expect(await parts()).toEqual(['Q-3 220 g', 'Q-4 12.28 kg']);
    expect(await n.main().getByText('left by the records').count()).toBe(0);
  });

  it('goes in all the same where somebody says so, and the mix says that more was taken than there was', async () => {
    await type('Q-4', '28000');
    await flour().filter({ hasText: 'Q-4' }).getByText('25 kg left by the records: from which other lot?').waitFor();
    await n.tap('White flour: all of it from this lot all the same');
    await n.tap(/^Weigh in \d/);
    await n.page.getByText('Add or adjust').waitFor();
    await n.main().getByText('3,000 g more taken of it than there was: put the lot right, or count it').waitFor();
  });

  it('fits under a finger everywhere', () => {
    expect([...n.awkward]).toEqual([]);
  });
});
