import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { KindName, PayloadFor } from '@bakehouse/records';
import { uuidv7 } from '../../apps/api/src/platform/ids/index.js';
import { Hand } from '../support/hand.js';
import { NightTable } from './_night.js';
import { retypeOnPad, typeOnPad } from './_page.js';

const bakeDay = '2026-11-25';
let n: NightTable;
let lead: Hand;
let make: string;
let run: string;
let batch: string;
const loads: string[] = [];
let probe: string;
let core: string;

/** Two loads in the oven that nobody read, twelve bloomers that were decided destroyed, and a probe that failed its check. */
beforeAll(async () => {
  n = await NightTable.open('05:30', { date: bakeDay, offLine: true });
  lead = new Hand(n.night.house, n.night.lead);
  const { body } = await n.night.lead.get(`/sites/${n.night.house.site}/night`).expect(200);
  const [plan, formulaVersion] = [String(body.rows.planVersion[0].id), String(body.rows.formulaVersion[0].id)];
  core = body.rows.controlPoint.find((p: { content: { key: string } }) => p.content.key === 'tin-core').id;
  probe = body.rows.instrument[0].id;
  const oven = body.rows.place.find((p: { name: string }) => p.name === 'Deck oven').id;
  make = await record('make-begun', { formulaVersion, station: n.night.mixer, plan, bakeDay, plannedMg: 41_450_000 });
  const line = { material: n.night.materials.flour, lot: null, quantity: { figure: '41', unit: 'kg' as const } };
  await record('weighed-in', { make, lines: [{ ...line, how: 'weighed', type: 'ingredient' }] });
  run = uuidv7(n.clock.now());
  const bloomers = uuidv7(n.clock.now());
  const runOf = (id: string, product: string, pieces: number) => ({
    ...{ run: id, product, heads: null, pieces, scaling: { figure: '465', unit: 'g' as const } },
  });
  const runs = [runOf(run, n.night.products.tin, 20), runOf(bloomers, n.night.products.bloomer, 12)];
  await record('divided', { make, quantity: null, oldDough: null, scrap: null, runs });
  const into = { oven, deck: null, plan, bakeDay, setting: null, minutes: 30 };
  for (const _ of [1, 2]) loads.push(await record('load-in', { ...into, lines: [{ run, pieces: 10 }] }));
  const counted = { run: bloomers, loads: [], pieces: 12, rejects: 0, code: 'B-1', bakedOn: bakeDay, bestBefore: null, useBy: null };
  batch = await record('batch-counted-out', counted);
  const about = { subjectType: 'batch', subject: batch, class: 'ccp', holds: true } as const;
  const deviation = await record('deviation-reported', about, { what: 'glass' });
  const destroyed: PayloadFor<'disposition-decided'> = {
    deviation,
    lot: batch,
    disposition: 'destroyed',
    covers: 'this-alone',
    concerns: [],
    quantity: null,
  };
  await signed('disposition-decided', destroyed);
  await record('instrument-in-use', { name: 'Probe P2', type: 'probe', unit: 'degC', halfWidth: '0.5' });
  await check('2.6');
  await n.enrolAndTap('Ines Pellow');
});
afterAll(() => n?.close());

const record = async <K extends KindName>(kind: K, payload: PayloadFor<K>, words: Readonly<Record<string, string>> = {}): Promise<string> =>
  (await lead.record(kind, payload, { words })).id;
const signed = <K extends KindName>(kind: K, payload: PayloadFor<K>, words: Readonly<Record<string, string>> = {}) =>
  lead.record(kind, payload, { words });
const check = (figure: string): Promise<string> =>
  record('instrument-checked', {
    ...{ instrument: probe, way: 'ice', shown: { figure, unit: 'degC' }, tolerance: null },
    at: { pressurePascal: null, altitudeMetres: null },
  });
const rows = async (name: string): Promise<readonly unknown[]> =>
  (await n.night.lead.get(`/sites/${n.night.house.site}/night?day=${bakeDay}`).expect(200)).body.rows[name];
const text = (): Promise<string | null> => n.main().textContent();

describe('what a page says before the tap, or at once after it', () => {
  it('that loads are not out of the oven and no core was read, before they are counted out', async () => {
    await n.page.goto(`/table/run/${run}/count`);
    await n.main().getByText('2 loads are not out of the oven yet').waitFor();
    await n.main().getByText('core temperature: not read yet for 2 loads').waitFor();
    await n.picture('count-out-unfinished');
    expect(await n.page.getByRole('button', { name: /^Count out 20/ }).isEnabled()).toBe(true);
  });

  it('that a thermometer failed its check, where it is chosen, and beside the verdict', async () => {
    await n.page.goto(`/table/read/load/${loads[0]}/${core}`);
    await n.heading(/core temperature/).waitFor();
    await n.context.setOffline(true);
    await n.page.getByText('Probe P1').first().click();
    await n
      .main()
      .getByText(/^to be confirmed: Probe P1 failed its check on .*; choose another$/)
      .waitFor();
    await typeOnPad(n.page, '95.1');
    await n.picture('reading-in-doubt');
    await n.tap(/^Record/);
    await n.sheet().getByRole('button', { name: 'It is so, record it now' }).click(); // the load is in the oven still
    await n.page.locator('.verdict').waitFor();
    expect(await n.verdict()).toMatch(/^to be confirmed: Probe P1 failed its check on/);
    expect(await text()).toContain('It shows “within the limit”, which settles nothing.');
    await n.picture('verdict-in-doubt');
    await n.tap('Read again');
    await n.page.getByText('Probe P2').first().click();
    await typeOnPad(n.page, '95.1');
    await n.tap(/^Record/);
    await n.sheet().getByRole('button', { name: 'It is so, record it now' }).click(); // and is asked each time
    await n.page.locator('.verdict').waitFor();
    expect(await n.verdict()).toBe('within the limit');
    await n.context.setOffline(false);
    await n.page.getByText('all sent').waitFor();
  });

  it('that food was decided destroyed already, where waste is recorded', async () => {
    await n.page.goto('/table/out/send/waste');
    await n.main().getByText('Decided destroyed already').waitFor();
    expect(await text()).toContain('Bloomer 400 g, B-1: all that was left');
    await n.picture('waste-decided-already');
  });

  it('that more is recorded as gone than there was, at the list of where it went', async () => {
    const line = { lots: [batch], quantity: { figure: '12', unit: 'piece' as const }, how: 'counted' as const };
    await record('sent-out', { channel: 'waste', customer: null, unattended: false, until: null, lines: [line] });
    await n.page.goto(`/office/lot/${batch}`);
    const section = n.page.locator('section', { hasText: 'Where it went' });
    await section.getByText('More is recorded as gone than there was: Bloomer 400 g, B-1, by 12 pieces').waitFor();
    await n.picture('gone-twice');
  });

  it('what a probe’s readings become when it goes out of use unchecked', async () => {
    await n.page.goto('/office/catalogue/places');
    await n.tap(/Probe P2/);
    await n
      .main()
      .getByText(/1 reading since it came into use will be in doubt/)
      .waitFor();
    await n.picture('probe-out-of-use');
  });

  it('that the tablet’s records speak against what was typed: it is kept all the same where the person says that it is so, and is looked at', async () => {
    await n.page.goto(`/table/make/${make}/make-up`);
    await n.main().getByRole('button', { name: 'White tin 800 g: grams each' }).click();
    await retypeOnPad(n.page, '2000000');
    await n.sheet().getByRole('button', { name: 'Done' }).click();
    await n.tap('Record the make-up');
    await n.main().getByText('at most 1 t for each piece').waitFor();
    await n.picture('refused-by-the-tablet');
    expect((await rows('divided')).length).toBe(1);
    await n.tap('It is so: keep it');
    await n.main().getByText('Kept as you typed it').waitFor();
    expect(await n.main().getByRole('button', { name: 'It is so: keep it' }).count()).toBe(0);
    await n.page.goto('/table/recent');
    const kept = n.main().locator('.notice', { hasText: 'at most 1 t for each piece' });
    await kept.getByText('White dough').waitFor();
    await n.picture('kept-to-look-at');
    expect((await rows('divided')).length).toBe(1);
    await kept.getByRole('button', { name: 'Dismiss' }).click();
    await n.main().getByText('refused', { exact: true }).waitFor();
  });

  it('what else holds the food, before a decision about it is signed: only what was ticked is decided', async () => {
    const out = { run, loads, pieces: 20, rejects: 0, code: 'T-1', bakedOn: bakeDay, bestBefore: null, useBy: null };
    const close = { subjectType: 'load', subject: loads[0] ?? '', point: core, measured: 'core', parameter: 'core temperature' } as const;
    await record('reading-taken', { ...close, instrument: probe, value: { figure: '94.2', unit: 'degC' }, yes: null, seconds: null });
    const tins = await record('batch-counted-out', out);
    const about = { subjectType: 'batch', subject: tins, class: 'ccp', holds: false } as const;
    const deviation = await record('deviation-reported', about, { what: 'pale' });
    await n.page.goto(`/table/deviation/${deviation}`);
    await n.main().getByText('noted; it holds nothing itself').waitFor();
    expect(await text()).toContain('on holdprobe again: core temperature: too close to call');
    await n.main().getByText('Decide and close, signed with a PIN').click();
    await n.main().getByText('accepted for use', { exact: true }).click();
    const beside = n.main().locator('fieldset', { hasText: 'This holds it as well' });
    await beside.getByText(/^probe again: core temperature/).check();
    await n.picture('holds-it-as-well');
    await n.main().getByText('this alone', { exact: true }).click();
    await n.tap('Sign: accepted for use');
    await typeOnPad(n.page, n.night.lead.pin);
    await n.sends(() => n.sheet().getByRole('button', { name: 'Go on' }).click());
    await n.main().getByText('also about: probe again: core temperature', { exact: false }).waitFor();
    const held = (await n.night.lead.get(`/sites/${n.night.house.site}/open`).expect(200)).body.held;
    expect(held.filter((h: { lot: string }) => h.lot === tins)).toEqual([]);
  });

  it('fits under a finger everywhere', () => {
    expect([...n.awkward]).toEqual([]);
  });
});
