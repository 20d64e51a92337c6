import { afterAll, beforeAll, expect, it } from '@jest/globals';
import { at } from '../support/bakehouse.js';
import { Hand } from '../support/hand.js';
import { NightTable } from './_night.js';

const withdrawn = 'The record it came from was withdrawn';

let n: NightTable;
let deviation: string;
beforeAll(async () => {
  n = await NightTable.open('05:30');
  const lead = new Hand(n.night.house, n.night.lead);
  const about = { subjectType: 'site', subject: n.night.house.site, class: 'oprp', holds: false } as const;
  deviation = (await lead.record('deviation-reported', about, { at: at('04:00'), words: { what: 'fridge left open' } })).id;
  await lead.record('entry-withdrawn', {}, { at: at('05:00'), corrects: deviation, words: { reason: 'another day' } });
  await lead.record('deviation-reported', about, { at: at('04:10'), words: { what: 'lamp broke' } });
  await n.enrolAndTap('Ines Pellow');
});
afterAll(() => n?.close());

const row = (what: string) => n.main().getByRole('listitem').filter({ hasText: what });

it('Today, the sheet of the day, its own page, the office and the officer say beside its words that its record was withdrawn', async () => {
  await n.place('Today');
  await row('fridge left open').getByText(withdrawn).waitFor();
  expect(await row('lamp broke').getByText(withdrawn).count()).toBe(0);
  await n.picture('taken-back-today');
  await row('fridge left open').getByRole('link').click();
  await n.main().getByText(withdrawn).waitFor();
  await n.picture('taken-back-deviation');
  for (const path of ['/table/sheet', '/office', '/table/officer']) {
    await n.page.goto(path);
    await row('fridge left open').getByText(withdrawn).first().waitFor();
    expect(await row('lamp broke').getByText(withdrawn).count()).toBe(0);
  }
});
