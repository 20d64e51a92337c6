import { writeFile } from 'node:fs/promises';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { uuidv7 } from '../../apps/api/src/platform/ids/index.js';
import { at, g } from '../support/bakehouse.js';
import { Hand } from '../support/hand.js';
import { signOn } from '../support/people.js';
import { NightTable } from './_night.js';

const before = '2026-11-24';
const words = (of: Record<string, string>) => ({ words: of });

let n: NightTable;
let lead: Hand;
let site: string;
let recall: string;
let moth: string;
let lamp: string;
beforeAll(async () => {
  n = await NightTable.open('01:00', { date: before });
  site = n.night.house.site;
  lead = new Hand(n.night.house, n.night.lead);
  const [first, second] = [await delivered('F-7'), await delivered('F-8')];
  const about = { subjectType: 'lot', subject: first, class: 'ccp', holds: true } as const;
  const { id: deviation } = await lead.record('deviation-reported', about, { at: at('00:30', before), ...words({ what: 'moth in it' }) });
  moth = deviation;
  const open = { ...about, subjectType: 'site', subject: site, holds: false } as const;
  lamp = (await lead.record('deviation-reported', open, { at: at('00:40', before), ...words({ what: 'lamp broke' }) })).id;
  await n.wallTo('12:00', '2026-11-25');
  await n.night.house.again();
  const { organisation } = n.night.house;
  lead.caller = await signOn(n.t, organisation, lead.caller.person, lead.caller.pin);
  const destroyed = { deviation, lot: null, disposition: 'destroyed', covers: 'this-alone', concerns: [] as string[] } as const;
  await lead.record(
    'disposition-decided',
    { ...destroyed, quantity: g('500') },
    { at: at('09:00'), ...words({ note: 'moth in the top' }) },
  );
  const review = words({ review: 'sacks are folded shut now', why: 'to be sieved' });
  await lead.record('deviation-closed', { deviation, staysOnHold: [first] }, { at: at('09:30'), ...review });
  const { id: hold } = await lead.record(
    'hold-placed',
    { lot: second, deviation: null },
    { at: at('10:00'), ...words({ because: 'smells' }) },
  );
  await lead.record('hold-lifted', { hold }, { at: at('10:30'), ...words({ why: 'it was the rye beside it' }) });
  const mixer = { place: n.night.mixer, from: at('05:00'), until: null };
  await lead.record('place-put-on-hold', mixer, { at: at('06:30'), ...words({ because: 'a screw is missing' }) });
  const waste = { channel: 'waste', customer: null, unattended: false, until: null } as const;
  const line = { lots: [second], quantity: g('300'), how: 'weighed' as const };
  await lead.record('sent-out', { ...waste, lines: [line] }, { at: at('11:00'), ...words({ note: 'spilt' }) });
  recall = uuidv7(n.clock.now());
  const suspect = { id: recall, suspect: [first], hazard: 'physical', hazardName: 'glass', practice: false, said: 'the mill rang' };
  await lead.caller.post('/recalls', suspect).expect(200);
  await n.enrolAndTap('Ines Pellow');
});
afterAll(() => n?.close());

async function delivered(code: string): Promise<string> {
  const lot = uuidv7(n.clock.now());
  const of = { lot, material: n.night.materials.flour, quantity: { figure: '50', unit: 'kg' as const }, asWritten: null };
  const known = { ...of, code, codeState: 'on-it' as const, bestBefore: null, useBy: null, temperature: null };
  const payload = { supplier: null, noteNumber: null, photo: null, unattended: false, lines: [known] };
  await lead.record('delivery-received', payload, { at: at('00:10', before) });
  return lot;
}

const section = (title: string) => n.main().locator('section', { has: n.page.getByRole('heading', { name: title, exact: true }) });
const says = async (title: string, ...texts: (string | RegExp)[]): Promise<void> => {
  await section(title).waitFor();
  for (const text of texts) expect(await section(title).innerText()).toMatch(text);
};

describe('the day’s sheet', () => {
  it('shows a deviation of the day before that was closed on the day, with what was decided, by whom and why', async () => {
    await n.place('Today');
    await n.tap('The day’s sheet, to print');
    const title = 'Deviations opened, decided on or closed on this day';
    await says(
      title,
      'moth in it',
      /Destroyed, 500 g: “moth in the top”/i,
      /signed by Ines Pellow/,
      /sacks are folded shut now/,
      /1 lot stayed on hold/,
    );
    expect(await section(title).innerText()).not.toContain('lamp broke');
    await says('Other deviations still open', 'lamp broke');
    await n.picture('sheet-decided');
    const { PICTURES: folder } = process.env;
    if (folder) await writeFile(`${folder}/sheet.pdf`, await n.page.pdf({ format: 'A4' }));
  });

  it('shows the holds that began and ended, of lots and of places, with how much is left, by whom and why', () =>
    says(
      'Holds begun or ended on this day',
      /White flour, F-8 smells; lifted [^;]*by Ines Pellow: “it was the rye beside it”; left of it now by the records: 49.7 kg/,
      /Big mixer a screw is missing/,
    ));

  it('shows the recalls, what was decided about food and what was thrown away', async () => {
    await says('Recalls open, opened or closed on this day', 'glass', /opened .* by Ines Pellow/);
    await says('Decided about food on this day', /White flour, F-7/, /destroyed, 500 g/, 'moth in it', '“moth in the top”');
    await says('Thrown away on this day', 'White flour, F-8', '300 g', '“spilt”');
  });

  it('and Today and the case say how much of the food was destroyed and how much is left to decide on', async () => {
    const left = '500 g destroyed; 49.5 kg not decided on';
    await n.place('Today');
    await n.main().getByText(left).first().waitFor();
    await n.page.goto(`/office/recalls/${recall}`);
    await n.main().getByText(left).first().waitFor();
    await n.picture('case-part-decided');
    expect(await n.main().innerText()).not.toMatch(/nobody decided/i);
    await n.page.goto('/table');
  });

  it('says without a network of which moment that is', async () => {
    await n.place('Today');
    await n.context.setOffline(true);
    await n.tap('The day’s sheet, to print');
    await n
      .main()
      .getByText(/^This device is off line: deviations, holds, recalls and decisions are as of Wed 25 Nov/)
      .waitFor();
    await says('Decided about food on this day', '“moth in the top”');
    await n.context.setOffline(false);
  });
});

describe('a deviation’s own page', () => {
  it('says who signed each decision and why, who closed it and when, and who has to decide next', async () => {
    await n.page.goto(`/table/deviation/${moth}`);
    await n.main().getByText('signed by Ines Pellow').waitFor();
    await says('Disposition', /destroyed, 500 g: “moth in the top”/, /Wed 25 Nov 09:00.*signed by Ines Pellow/);
    await says(
      'Closed',
      /Wed 25 Nov 09:30 by Ines Pellow, who also did it: “sacks are folded shut now”. 1 lot stayed on hold undecided: “to be sieved”/,
    );
    const next = 'Next, somebody with one of these roles: manager, food-safety lead.';
    await n.main().getByText(`${next} They decide on the food that stayed on hold`).waitFor();
    await n.picture('deviation-decided');
    await n.page.goto(`/table/deviation/${lamp}`);
    await n.main().getByText(`${next} They decide on the food and close the deviation`).waitFor();
    expect(await section('Closed').count()).toBe(0);
  });
});
