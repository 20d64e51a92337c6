import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { Hand } from '../support/hand.js';
import { NightTable } from './_night.js';

let n: NightTable;
beforeAll(async () => {
  n = await NightTable.open('02:00');
  const lead = new Hand(n.night.house, n.night.lead);
  await lead.record('place-in-use', { name: 'A small mixer', type: 'mixer', within: null });
  await n.enrolAndTap('Tam Wick');
});
afterAll(() => n?.close());

const makes = async (): Promise<{ at: string; station: string }[]> =>
  (await n.night.lead.get(`/sites/${n.night.house.site}/night?day=2026-11-25`).expect(200)).body.rows.make;
const where = (name: string) => n.main().getByRole('group', { name: 'Where' }).getByRole('radio', { name });

describe('a mix that is begun', () => {
  it('is nowhere before somebody says where, and a quarter of an hour ago where that is so', async () => {
    await n.place('Start');
    await n.tap(/White dough/);
    const begin = n.page.getByRole('button', { name: /^Begin/ });
    await begin.waitFor();
    expect([await where('A small mixer').isChecked(), await begin.isDisabled()]).toEqual([false, true]);
    await n.main().getByRole('group', { name: 'Where' }).getByText('Big mixer').click();
    await n.tap('Change');
    await n.main().getByText('−15 min').click();
    await n.picture('begin');
    await begin.click();
    await n.page.getByText('planned').waitFor();
    await n.page.getByText('all sent').waitFor();
    const [make] = await makes();
    expect([make?.at.slice(11, 16), make?.station]).toEqual(['01:45', n.night.mixer]);
  });

  it('is proposed the next time where it was the last time', async () => {
    await n.place('Start');
    await n.tap(/White dough/);
    await where('Big mixer').waitFor({ state: 'attached' });
    expect(await where('Big mixer').isChecked()).toBe(true);
  });

  it('leaves the next person on the first screen', async () => {
    await n.page.getByRole('button', { name: /^Tam Wick is signed on/ }).click();
    await n.tap('Oona Firth');
    await n.page.getByRole('button', { name: /^Oona Firth is signed on/ }).waitFor();
    await n.heading('Today’s bake').waitFor();
  });

  it('fits under a finger everywhere', () => {
    expect([...n.awkward]).toEqual([]);
  });
});
