import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { uuidv7 } from '../../apps/api/src/platform/ids/index.js';
import { at } from '../support/bakehouse.js';
import { Hand } from '../support/hand.js';
import { NightTable } from './_night.js';
import { retypeOnPad, typeOnPad } from './_page.js';

let n: NightTable;
let run: string;
let load: string;
beforeAll(async () => {
  n = await NightTable.open('05:30');
  const lead = new Hand(n.night.house, n.night.lead);
  const { place, formulaVersion } = await rowsNow();
  const id = (of: Record<string, unknown> | undefined): string => String(of?.['id']);
  const oven = id(place?.find((p) => p['name'] === 'Deck oven'));
  const of = { formulaVersion: id(formulaVersion?.[0]), station: n.night.mixer, plan: null, bakeDay: '2026-11-25', plannedMg: null };
  const make = (await lead.record('make-begun', of)).id;
  run = uuidv7(n.clock.now());
  const runs = [{ run, product: n.night.products.tin, heads: null, pieces: 20, scaling: { figure: '910', unit: 'g' as const } }];
  await lead.record('divided', { make, quantity: null, oldDough: null, scrap: null, runs });
  const loaded = { oven, deck: null, plan: null, bakeDay: '2026-11-25', setting: null, minutes: 30, lines: [{ run, pieces: 20 }] };
  load = (await lead.record('load-in', loaded, { at: at('04:40') })).id;
  await lead.record('load-stepped', { load, step: 'out', minutes: null }, { at: at('05:12') });
  const dates = { bakedOn: '2026-11-25', bestBefore: '2026-11-28', useBy: null };
  await lead.record('batch-counted-out', { run, loads: [load], pieces: 20, rejects: 0, code: 'T-1', ...dates });
  await n.enrolAndTap('Tam Wick');
});
afterAll(() => n?.close());

const rowsNow = async (): Promise<Record<string, Record<string, unknown>[]>> =>
  (await n.night.lead.get(`/sites/${n.night.house.site}/night?day=2026-11-25`).expect(200)).body.rows;
const rows = async (): Promise<Record<string, Record<string, unknown>[]>> => {
  await n.page.getByText('all sent').waitFor();
  return rowsNow();
};
const reason = (text: string, within = n.main()) => within.getByText(text, { exact: true }).click();
const entry = (kind: string) => n.main().getByRole('listitem').filter({ hasText: kind });

describe('what was sent out', () => {
  it('is corrected from where it was recorded, by one tapped reason, and the list says what changed', async () => {
    await n.place('Send out');
    await n.tap(/^Eaten by us/);
    await n
      .main()
      .getByRole('button', { name: /White tin/ })
      .click();
    await typeOnPad(n.page, '12');
    await n.sheet().getByRole('button', { name: 'Done' }).click();
    await n.tap('Record it');
    if (await n.sheet().count()) await n.sheet().getByRole('button', { name: 'Use it all the same' }).click();
    await n.tap('Correct it');
    await n.tap(/How much|how much/);
    await retypeOnPad(n.page, '2');
    await n.sheet().getByRole('button', { name: 'Done' }).click();
    expect(await n.main().getByRole('button', { name: 'Correct it' }).isDisabled()).toBe(true); // no reason yet
    await reason('mistyped');
    await n.picture('correct-sent');
    await n.tap('Correct it');
    await n.heading('Recent entries on this tablet').waitFor();
    await entry('Goods were sent out')
      .first()
      .getByText(/12.*→ 2/)
      .waitFor();
    await n.picture('recent-changed');
    expect((await rows())['departure']).toMatchObject([{ pieces: 2, channel: 'staff' }]);
  });

  it('is struck out once it was taken back', async () => {
    await entry('Goods were sent out').first().getByRole('link').click();
    await n.tap('Take it back');
    await reason('entered twice', n.sheet());
    await n.picture('take-back');
    await n.sheet().getByRole('button', { name: 'Take it back' }).click();
    await entry('Goods were sent out').first().locator('s').waitFor();
    expect(await entry('Goods were sent out').first().textContent()).toContain('taken back');
    expect((await rows())['departure']).toEqual([]);
  });
});

describe('a delivery', () => {
  it('is corrected from its place on the list, and gets a photo that came later', async () => {
    await n.place('Goods in');
    await n.tap('A delivery came');
    await n
      .main()
      .getByRole('button', { name: /^White flour/ })
      .click();
    await typeOnPad(n.page, '25');
    await n.sheet().getByLabel('The code on it').fill('F-7');
    await n.sheet().getByRole('button', { name: 'Put it on the list' }).click();
    await n.sends(() => n.tap(/^Record 1 line/)); // the list is the service’s
    await n.tap('Decide what may be used');
    await n.tap('Correct it, or add a photo');
    await n.tap('White flour: how much');
    await retypeOnPad(n.page, '24');
    await n.sheet().getByRole('button', { name: 'Done' }).click();
    await n.page.locator('input[type=file]').setInputFiles({ name: 'note.png', mimeType: 'image/png', buffer: await n.page.screenshot() });
    await n.main().getByRole('button', { name: 'Take another photo' }).waitFor();
    await reason('mistyped');
    await n.picture('correct-delivery');
    await n.tap('Correct it');
    await n.heading('Recent entries on this tablet').waitFor();
    await entry('A delivery was received')
      .first()
      .getByText(/25 kg → 24 kg/)
      .waitFor();
    const { delivery, lot } = await rows();
    expect(delivery).toMatchObject([{ photo: expect.stringMatching(/^[0-9a-f]{64}$/) }]);
    expect(lot?.filter((l) => l['code'] === 'F-7')).toMatchObject([{ mg: 24_000_000 }]);
  });
});

describe('a deviation', () => {
  it('that could hurt somebody proposes a hold, is about one of twenty, and is one form with one PIN at its end', async () => {
    await n.page.getByRole('button', { name: /Tam Wick is signed on/ }).click();
    await n.tap('Ines Pellow');
    if (await n.page.locator('.pad').count()) await typeOnPad(n.page, n.night.lead.pin);
    await n.page.getByRole('button', { name: /Ines Pellow is signed on/ }).waitFor();
    await n.page.goto(`/table/report/load/${load}`);
    const hold = n.main().getByRole('radio', { name: 'yes, put it on hold' });
    expect(await hold.isChecked()).toBe(false);
    await reason('foreign body');
    expect(await n.main().getByRole('radio', { name: 'critical: somebody could be hurt' }).isChecked()).toBe(true);
    expect(await hold.isChecked()).toBe(true);
    await n.main().getByText('control: it should not happen').click();
    expect(await hold.isChecked()).toBe(false);
    await n.page.getByLabel('What happened, in a few words').fill('blue plastic, 4 mm, in the crust');
    await n.tap('one more');
    await n.main().getByText('critical: somebody could be hurt').click();
    expect(await hold.isChecked()).toBe(true);
    await n.main().getByRole('group', { name: 'Corrective action' }).getByText('set aside').click();
    await n.main().getByRole('group', { name: 'Disposition of 1, signed with a PIN' }).getByText('destroyed').click();
    await n.main().getByText('19 on hold').waitFor();
    await n.picture('deviation-one-form');
    await n.tap('Sign and record');
    await typeOnPad(n.page, n.night.lead.pin);
    await n.page.getByRole('button', { name: 'Go on' }).click();
    await n
      .main()
      .getByText(/1 of 20: foreign body: blue plastic/)
      .waitFor();
    await n.picture('deviation-recorded');
    const { deviation, correctiveAction, disposition } = await rows();
    const mine = deviation?.filter((d) => d['type'] === 'deviation-reported');
    expect(mine).toMatchObject([{ subject: load, class: 'ccp', holds: true }]);
    expect(correctiveAction).toMatchObject([{ type: 'set-aside' }]);
    expect(disposition).toMatchObject([{ disposition: 'destroyed', pieces: 1, subject: run }]);
  });
});

describe('every screen of it', () => {
  it('fits under a finger', () => {
    expect([...n.awkward]).toEqual([]);
  });
});
