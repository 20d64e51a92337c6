import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { KindName, PayloadFor } from '@bakehouse/records';
import * as z from 'zod';
import { uuidv7 } from '../../apps/api/src/platform/ids/index.js';
import { at } from '../support/bakehouse.js';
import { Hand } from '../support/hand.js';
import { NightTable } from './_night.js';
import { typeOnPad } from './_page.js';

let n: NightTable;
let lead: Hand;
let make: string;
const loads: string[] = [];
let core: string;
let probe: string;
beforeAll(async () => {
  n = await NightTable.open('04:20');
  lead = new Hand(n.night.house, n.night.lead);
  await record('instrument-in-use', { name: 'Bench scale', type: 'scale', unit: 'g', halfWidth: '1' });
  make = await begun();
  const run = uuidv7(n.clock.now());
  const runs = [{ run, product: n.night.products.tin, heads: null, pieces: 20, scaling: { figure: '910', unit: 'g' as const } }];
  await record('divided', { make, quantity: null, oldDough: null, scrap: null, runs });
  const of = await rows();
  const oven = String(of['place']?.find((p) => p['name'] === 'Deck oven')?.['id']);
  const plan = String(of['controlPoint']?.[0]?.['plan']);
  core = String(of['controlPoint']?.find((p) => JSON.stringify(p['content']).includes('tin-core'))?.['id']);
  probe = String(of['instrument']?.find((i) => i['name'] === 'Probe P1')?.['id']);
  for (const time of ['04:05', '04:10']) {
    const payload = { oven, deck: null, plan, bakeDay: '2026-11-25', setting: null, minutes: 30, lines: [{ run, pieces: 10 }] };
    loads.push((await lead.record('load-in', payload, { at: at(time) })).id);
  }
  await n.enrolAndTap('Tam Wick');
});
afterAll(() => n?.close());

const record = async <K extends KindName>(kind: K, payload: PayloadFor<K>, words: Readonly<Record<string, string>> = {}): Promise<string> =>
  (await lead.record(kind, payload, { words })).id;
const rows = async (): Promise<Record<string, Record<string, unknown>[]>> =>
  (await n.night.lead.get(`/sites/${n.night.house.site}/night?day=2026-11-25`).expect(200)).body.rows;
const readings = async (): Promise<unknown[]> => {
  await n.page.getByText('all sent').waitFor();
  return ((await rows())['reading'] ?? []).map((r) => [r['figure'], r['verdict'], r['instrument'], r['at']]);
};
async function begun(): Promise<string> {
  const plan = String((await rows())['controlPoint']?.[0]?.['plan']);
  const formulaVersion = String((await rows())['formulaVersion']?.[0]?.['id']);
  return record('make-begun', { formulaVersion, station: n.night.mixer, plan, bakeDay: '2026-11-25', plannedMg: 41_450_000 });
}
const field = () => n.page.locator('.pad-line input').last();
const preview = () => n.main().locator('.preview');
const nothingYet = () => n.main().getByText('Nothing is recorded yet.').waitFor();
async function readCoreOf(load = 0): Promise<void> {
  await n.page.goto(`/table/read/load/${loads[load]}/${core}`);
  await field().waitFor();
}
/** What has the focus: its name, or what it is called for a reader. */
const focused = (): Promise<string | null> =>
  n.page.evaluate(() => document.activeElement?.getAttribute('aria-label') ?? document.activeElement?.textContent ?? null);

describe('a figure on the pad', () => {
  it('is judged while it is typed: once for each figure, by what judges it when it is recorded, and nothing is recorded', async () => {
    await readCoreOf();
    expect(await n.main().locator('.asked').textContent()).toBe('Critical limit 94 °C or more');
    expect(await field().evaluate((e) => e === document.activeElement)).toBe(true);
    // however slow the machine is, the page asks for nothing anew meanwhile; in the past of the page it cannot be stopped
    await n.page.clock.pauseAt(await n.page.evaluate(() => Date.now() + 5_000));
    // each judging makes the entry that it is about, and each entry takes its id from here
    await n.page.evaluate(
      'window.ids = 0; { const real = crypto.getRandomValues.bind(crypto); crypto.getRandomValues = (a) => { window.ids += 1; return real(a); }; }',
    );
    await typeOnPad(n.page, '87.9');
    await preview().getByText('too low').waitFor();
    await preview().getByText('6.1 °C below the limit').waitFor();
    await nothingYet();
    await n.picture('too-low');
    await n.page.clock.fastForward(12_000); // the screen's own time moves on every ten seconds; what the service has is asked for again after thirty
    expect(await n.page.evaluate('window.ids')).toBe(3); // 8, 87 and 87.9: a point alone says nothing else
    await n.page.clock.resume();
    expect(await readings()).toEqual([]);
  });

  it('that cannot be right is asked about, and its tenth is taken by a key and never by itself', async () => {
    await readCoreOf();
    await typeOnPad(n.page, '940');
    await n.main().getByRole('heading', { name: 'Did you mean 94.0 °C?' }).waitFor();
    await nothingYet();
    expect(await field().inputValue()).toBe('940');
    await n.picture('did-you-mean');
    await n.tap('Yes, 94.0 °C');
    expect(await field().inputValue()).toBe('94.0');
    await preview()
      .getByText(/too close to call/)
      .waitFor(); // the house's only probe is proposed, and it may be off by half a degree
    await nothingYet();
    expect(await readings()).toEqual([]);
    await typeOnPad(n.page, '9'); // what was proposed is replaced
    expect(await field().inputValue()).toBe('9');
  });

  it('is asked about ten minutes and more before it is due', async () => {
    await readCoreOf();
    await typeOnPad(n.page, '95.1');
    await n.tap('Record 95.1 °C');
    await n.sheet().getByRole('heading', { name: 'Not due before 04:35: record it now?' }).waitFor();
    await n.picture('too-early');
    await n.sheet().getByRole('button', { name: 'Not yet' }).click();
    await n.sheet().waitFor({ state: 'detached' });
    expect(await focused()).toBe('Record 95.1 °C');
    expect(await readings()).toEqual([]);
    await n.at('04:26'); // nine minutes before
    await n.main().getByRole('group', { name: 'Read with' }).getByText('Probe P1').click();
    expect(await n.main().getByText('Bench scale').count()).toBe(0); // it does not measure degrees
    const said = await preview().locator('.preview-word').textContent();
    await n.tap('Record 95.1 °C');
    await n.page.locator('.verdict').waitFor();
    expect([said, await n.verdict()]).toEqual(['within the limit', 'within the limit']);
    expect(await readings()).toMatchObject([['95.1', 'within', probe, expect.any(String)]]);
  });

  it('is read with what was used last for the like, and may be of a while ago', async () => {
    await n.at('04:45');
    await readCoreOf(1);
    expect(await n.main().getByRole('radio', { name: 'Probe P1' }).isChecked()).toBe(true);
    await typeOnPad(n.page, '96');
    await n.main().getByText('Now, by Tam Wick').waitFor();
    await n.main().locator('.when-who').getByRole('button', { name: 'Change' }).click();
    await n.main().getByText('−5 min', { exact: true }).click();
    expect(await n.main().getByLabel('At what time').inputValue()).toBe('04:40');
    expect(
      await n
        .main()
        .getByRole('radio', { name: /^about/ })
        .isChecked(),
    ).toBe(true);
    await n.picture('when');
    const sent = n.page.waitForRequest((r) => r.method() === 'POST' && r.url().endsWith('/entries'));
    await n.tap('Record 96 °C');
    const entries = z
      .array(z.object({ occurredAt: z.object({ at: z.string(), precision: z.string() }) }))
      .parse((await sent).postDataJSON());
    expect(entries.map((e) => [e.occurredAt.precision, e.occurredAt.at.slice(11, 16)])).toEqual([['about', '04:40']]);
    await n.page.locator('.verdict').waitFor();
  });

  it('says of an instrument that failed its check that it has to be confirmed', async () => {
    const shown = { figure: '3', unit: 'degC' as const };
    await record('instrument-checked', {
      instrument: probe,
      way: 'ice',
      shown,
      at: { pressurePascal: null, altitudeMetres: null },
      tolerance: null,
    });
    await n.page.goto('/table');
    await n.page.getByRole('button', { name: /^as of/ }).click();
    await readCoreOf(1);
    await n
      .main()
      .getByText(/^Probe P1, to be confirmed/)
      .waitFor();
    const inDoubt = n.main().getByRole('radio', { name: /^Probe P1/ });
    expect(await inDoubt.isChecked()).toBe(false); // though it was used last
    await inDoubt.check({ force: true });
    await typeOnPad(n.page, '96');
    await preview()
      .getByText(/failed its check on/)
      .waitFor();
  });

  it('that was there before is replaced by the first key', async () => {
    await n.page.goto(`/table/make/${make}/mixed`);
    await n.main().getByRole('button', { name: /^Fast/ }).click();
    expect(await field().inputValue()).toBe('6');
    await typeOnPad(n.page, '1');
    await typeOnPad(n.page, '2');
    expect(await field().inputValue()).toBe('12');
    await n.main().getByRole('button', { name: /^Slow/ }).click();
    await n.page.keyboard.type('35');
    expect(await field().inputValue()).toBe('35');
  });
});

describe('weighing in', () => {
  async function opened(material: string, code: string, bestBefore: string | null): Promise<string> {
    const lot = uuidv7(n.clock.now());
    const of = { lot, material, quantity: { figure: '50', unit: 'kg' as const }, asWritten: null, bestBefore, useBy: null };
    const lines = [{ ...of, code, codeState: 'on-it' as const, temperature: null }];
    await record('delivery-received', { supplier: null, noteNumber: null, photo: null, unattended: false, lines });
    await record('lot-opened', { station: n.night.mixer, material, lot, beside: false });
    return lot;
  }
  const went = async (of: string): Promise<unknown[]> => {
    await n.page.getByText('all sent').waitFor();
    return ((await rows())['flow'] ?? []).filter((f) => f['target'] === of).map((f) => f['source']);
  };

  it('takes what nothing speaks against, and says of each other line why it waits', async () => {
    const held = await opened(n.night.materials.flour, 'F-7', null);
    const old = await opened(n.night.materials.oil, 'O-1', '2026-11-22');
    await record('hold-placed', { lot: held, deviation: null }, { because: 'mites' });
    const second = await begun();
    await n.page.goto('/table');
    await n.page.getByRole('button', { name: /^as of/ }).click();
    await n.page.goto(`/table/make/${second}/weigh`);
    const row = (name: string) => n.main().getByRole('row', { name: new RegExp(name) });
    await row('White flour').getByText('on hold').waitFor();
    await row('Rapeseed oil').getByText('past its best-before date').waitFor();
    await n.main().getByRole('button', { name: 'Weigh in 3 lines' }).waitFor();
    await n.main().getByText('3 of 5 lines').waitFor();
    await n.picture('weigh-stopped');
    await n.tap('Rapeseed oil: use it all the same');
    await n.main().getByRole('button', { name: 'Weigh in 4 lines' }).waitFor();
    await n.tap(/^Salt: change/);
    expect(await field().evaluate((e) => e === document.activeElement)).toBe(true);
    await n.sheet().getByRole('button', { name: 'Close' }).click();
    await n.sheet().waitFor({ state: 'detached' });
    expect(await focused()).toBe('Salt: change 450 g');
    await n.tap('Weigh in 4 lines');
    await n.page.waitForURL(/[^/]{36}$/);
    const in4 = await went(second);
    expect([in4.length, in4.includes(old), in4.includes(held)]).toEqual([4, true, false]);
    await n.tap('Add or adjust');
    await n.main().getByText('0 of 1 line,').waitFor();
    expect(await n.main().getByRole('button', { name: 'Weigh in 0 lines' }).isDisabled()).toBe(true);
  });

  it('goes without a lot that is on hold once another is open, and takes all of the other', async () => {
    await n.tap('White flour: open another lot');
    await n.tap('Lot not known', n.sheet());
    await n.main().getByText('White flour is open').waitFor();
    await n
      .main()
      .getByRole('row', { name: /White flour.*F-7/ })
      .getByText('left out')
      .waitFor();
    await n.main().getByRole('button', { name: 'White flour: change 25 kg' }).waitFor();
    await n.picture('weigh-another');
    await n.tap('Weigh in 1 line');
    await n.page.waitForURL(/[^/]{36}$/);
  });
});

describe('every screen of it', () => {
  it('has targets of 48 px and more, and fits both tablets without scrolling sideways', () => {
    expect([...n.awkward]).toEqual([]);
  });
});
