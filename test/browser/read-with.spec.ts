import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { uuidv7 } from '../../apps/api/src/platform/ids/index.js';
import { Hand } from '../support/hand.js';
import { NightTable } from './_night.js';
import { typeOnPad } from './_page.js';

const bakeDay = '2026-11-25';
let n: NightTable;
let lead: Hand;
let load = '';
let point = '';

/** Twenty tins that are out at 05:20, in a house with two probes and a sensor that hangs in a fridge. */
beforeAll(async () => {
  n = await NightTable.open('05:30', { date: bakeDay });
  lead = new Hand(n.night.house, n.night.lead);
  const { rows } = (await n.night.lead.get(`/sites/${n.night.house.site}/night`).expect(200)).body;
  const formulaVersion = String(rows.formulaVersion[0].id);
  const plan = String(rows.planVersion[0].id);
  point = String(rows.controlPoint.find((p: { key: string }) => p.key === 'tin-core').id);
  const oven = String(rows.place.find((p: { name: string }) => p.name === 'Rack oven').id);
  const of = { unit: 'degC', halfWidth: '0.5' } as const;
  await lead.record('instrument-in-use', { name: 'Probe P2', type: 'probe', ...of });
  await lead.record('instrument-in-use', { name: 'Fridge sensor', type: 'fixed-sensor', ...of });
  const make = (await lead.record('make-begun', { formulaVersion, station: n.night.mixer, plan, bakeDay, plannedMg: null })).id;
  const run = uuidv7(n.clock.now());
  const runs = [{ run, product: n.night.products.tin, heads: null, pieces: 20, scaling: { figure: '910', unit: 'g' as const } }];
  await lead.record('divided', { make, quantity: null, oldDough: null, scrap: null, runs });
  const into = { oven, deck: null, plan, bakeDay, setting: null, minutes: null, lines: [{ run, pieces: 20 }] };
  load = (await lead.record('load-in', into)).id;
  await lead.record('load-stepped', { load, step: 'out', minutes: null });
  await n.enrolAndTap('Tam Wick');
});
afterAll(() => n?.close());

const choice = (at = n.main()) => at.getByRole('group', { name: 'Read with' });
const read = async (): Promise<void> => {
  await n.page.goto(`/table/read/load/${load}/${point}`);
  await choice().getByText('Probe P2').waitFor();
  await typeOnPad(n.page, '96.5');
};

describe('what a core is read with', () => {
  it('is asked for at a critical point where nobody chose, and a sensor of a fridge is not offered', async () => {
    await read();
    expect(await choice().getByText('Fridge sensor').count()).toBe(0);
    expect(await choice().getByRole('radio', { checked: true }).count()).toBe(0);
    await n.tap(/^Record/);
    const ask = n.sheet().getByRole('button', { name: 'Record it' });
    expect(await ask.isDisabled()).toBe(true);
    await n.picture('read-with-which');
    await choice(n.sheet()).getByText('Probe P2').click();
    await n.sends(() => ask.click());
    await n.main().getByText('within the limit').first().waitFor();
    const { body } = await n.night.lead.get(`/sites/${n.night.house.site}/night?day=${bakeDay}`).expect(200);
    const probe = body.rows.instrument.find((i: { name: string }) => i.name === 'Probe P2').id;
    expect(body.rows.reading).toMatchObject([{ instrument: probe }]);
  });

  it('is there from the start the next time, and may be left out on purpose', async () => {
    await read();
    expect(await choice().getByRole('radio', { name: 'Probe P2' }).isChecked()).toBe(true);
    await choice().getByText('not said').click();
    await n.tap(/^Record/);
    await n.main().getByText('within the limit').first().waitFor();
    expect(await n.sheet().count()).toBe(0);
  });

  it('fits under a finger everywhere', () => {
    expect([...n.awkward]).toEqual([]);
  });
});
