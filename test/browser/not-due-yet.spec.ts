import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { uuidv7 } from '../../apps/api/src/platform/ids/index.js';
import { Hand } from '../support/hand.js';
import { NightTable } from './_night.js';
import { typeOnPad } from './_page.js';

const bakeDay = '2026-11-25';
let n: NightTable;
let load = '';

/** Twenty tins, half an hour in the oven from 05:30. */
beforeAll(async () => {
  n = await NightTable.open('05:30', { date: bakeDay });
  const lead = new Hand(n.night.house, n.night.lead);
  const { rows } = (await n.night.lead.get(`/sites/${n.night.house.site}/night`).expect(200)).body;
  const formulaVersion = String(rows.formulaVersion[0].id);
  const plan = String(rows.planVersion[0].id);
  const oven = String(rows.place.find((p: { name: string }) => p.name === 'Rack oven').id);
  const make = (await lead.record('make-begun', { formulaVersion, station: n.night.mixer, plan, bakeDay, plannedMg: null })).id;
  const run = uuidv7(n.clock.now());
  const runs = [{ run, product: n.night.products.tin, heads: null, pieces: 20, scaling: { figure: '910', unit: 'g' as const } }];
  const line = { material: n.night.materials.flour, lot: null, quantity: { figure: '20', unit: 'kg' as const }, how: 'weighed' as const };
  await lead.record('weighed-in', { make, lines: [{ ...line, type: 'ingredient' }] });
  await lead.record('divided', { make, quantity: null, oldDough: null, scrap: null, runs });
  const of = { oven, deck: null, plan, bakeDay, setting: null, minutes: 30, lines: [{ run, pieces: 20 }] };
  load = (await lead.record('load-in', of)).id;
  await n.enrolAndTap('Tam Wick');
  await n.page.goto(`/table/load/${load}`);
});
afterAll(() => n?.close());

const notDue = () => n.sheet().getByRole('heading', { name: /^Not due before 06:00/ });

describe('a load that is not due for half an hour', () => {
  it('is not taken out before somebody says that it is so', async () => {
    await n.tap('Take out');
    await notDue().waitFor();
    await n.picture('out-early');
    await n.tap('Not yet', n.sheet());
    expect(await n.main().getByText('out 06:00').count()).toBe(1);
  });

  it('asks about each reading of it, the second as the first', async () => {
    const read = async (): Promise<void> => {
      await typeOnPad(n.page, '60');
      await n.tap(/^Record/);
      await notDue().waitFor();
      await n.tap('It is so, record it now', n.sheet());
      await n.main().getByText('too low').first().waitFor();
    };
    await n.tap(/core temperature/);
    await read();
    await n.page.goto(`/table/load/${load}`);
    await n.tap('Read core temperature again');
    await read();
  });

  it('stays in for its time, and the record says so', async () => {
    await n.picture('leave-it-in');
    expect(
      await n
        .main()
        .getByRole('button', { name: /^Back in the oven/ })
        .count(),
    ).toBe(0);
    await n.tap('Leave it in until 06:00');
    await n
      .main()
      .getByText(/out 06:00/)
      .waitFor();
    await n.page.getByText('all sent').waitFor();
    const { body } = await n.night.lead.get(`/sites/${n.night.house.site}/night?day=${bakeDay}`).expect(200);
    expect(body.rows.correctiveAction).toMatchObject([{ type: 'other', action: 'left in the oven until 06:00' }]);
    expect(body.rows.loadStep).toEqual([]);
  });

  it('fits under a finger everywhere', () => {
    expect([...n.awkward]).toEqual([]);
  });
});
