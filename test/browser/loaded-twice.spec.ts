import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { Hand } from '../support/hand.js';
import { doughBegun, madeUp, placeNamed } from './_made.js';
import { NightTable } from './_night.js';
import { retypeOnPad } from './_page.js';

const bakeDay = '2026-11-25';
let n: NightTable;
let lead: Hand;
let run = '';

/** Twenty tins that two tablets put into an oven, fourteen of them both. */
beforeAll(async () => {
  n = await NightTable.open('05:30', { date: bakeDay });
  lead = new Hand(n.night.house, n.night.lead);
  run = await madeUp(n, lead, await doughBegun(n, lead, bakeDay), n.night.products.tin, 20, '910');
  const oven = await placeNamed(n, 'Rack oven');
  for (const pieces of [20, 14])
    await lead.record('load-in', { oven, deck: null, plan: null, bakeDay, setting: null, minutes: 30, lines: [{ run, pieces }] });
  await n.enrolAndTap('Tam Wick');
});
afterAll(() => n?.close());

describe('more in the oven than were made up', () => {
  it('is said on the first screen, with its mark', async () => {
    const said = n.main().locator('section', { hasText: 'It does not add up' });
    await said.getByText('34 in the oven by the records, of 20 that were made up').waitFor();
    expect(await said.locator('.mark').count()).toBe(1);
    await n.picture('loaded-twice-today');
    await said.getByRole('link').click();
  });

  it('is said at the product, with each load and who recorded it', async () => {
    const notice = n.main().locator('.notice', { hasText: '14 more in the oven than were made up' });
    await notice.waitFor();
    const loads = await notice.getByRole('link').allTextContents();
    expect(loads.map((text) => text.replace(/\d\d:\d\d/, 'then')).sort()).toEqual([
      '14 pieces, in then by Ines Pellowput it right',
      '20 pieces, in then by Ines Pellowput it right',
    ]);
    await n.picture('loaded-twice');
  });

  it('proposes no more to be counted out than there was, and asks where more is typed', async () => {
    await n.tap('Count out');
    await n.main().getByRole('button', { name: 'Count out 20' }).waitFor();
    await retypeOnPad(n.page, '34');
    await n.tap(/^Count out/);
    await n.sheet().getByText('14 more than went in').waitFor();
    await n.tap('Change it', n.sheet());
  });

  it('fits under a finger everywhere', () => {
    expect([...n.awkward]).toEqual([]);
  });
});
