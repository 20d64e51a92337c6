import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { House } from '../support/people.js';
import { NightTable } from './_night.js';

let n: NightTable;
let other: House;
beforeAll(async () => {
  n = await NightTable.open('10:00');
  other = await House.found(n.night.house.t);
});
afterAll(() => n?.close());

describe('a service that several houses use', () => {
  it('asks a browser that nobody told which house it is for, and shows no names', async () => {
    await n.page.goto('/');
    await n.page.getByText('Which bakehouse?').waitFor();
    await n.picture('which-house');
    expect(await n.page.locator('body').textContent()).not.toMatch(/Ada Min|Ines Pellow/);
  });

  it('knows the house by its own address, and remembers it', async () => {
    await n.page.goto(`/?house=${other.organisation}`);
    await n.page.getByRole('button', { name: 'Ada Min' }).waitFor();
    expect(await n.page.locator('body').textContent()).not.toContain('Ines Pellow');
    await n.page.goto('/');
    await n.page.getByRole('button', { name: 'Ada Min' }).waitFor();
    await n.page.goto(`/?house=${n.night.house.organisation}`);
    await n.page.getByRole('button', { name: 'Ines Pellow' }).waitFor();
  });

  it('goes back to asking where the remembered house is gone', async () => {
    await n.page.goto('/?house=00000000-0000-4000-8000-00000000abcd');
    await n.page.getByText('Which bakehouse?').waitFor();
  });
});
