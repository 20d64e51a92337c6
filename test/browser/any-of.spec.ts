import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { uuidv7 } from '../../apps/api/src/platform/ids/index.js';
import { Hand } from '../support/hand.js';
import { NightTable } from './_night.js';

let n: NightTable;
let lead: Hand;
let lots: readonly [string, string];
beforeAll(async () => {
  n = await NightTable.open('02:00');
  lead = new Hand(n.night.house, n.night.lead);
  lots = [await opened('Q-1'), await opened('Q-2')];
  await n.enrolAndTap('Tam Wick');
});
afterAll(() => n?.close());

/** A sack of flour that stands open at the mixer, beside what is open there. */
async function opened(code: string): Promise<string> {
  const lot = uuidv7(n.clock.now());
  const { flour: material } = n.night.materials;
  const of = { lot, material, quantity: { figure: '25', unit: 'kg' as const }, asWritten: null, bestBefore: null, useBy: null };
  const lines = [{ ...of, code, codeState: 'on-it' as const, temperature: null }];
  await lead.record('delivery-received', { supplier: null, noteNumber: null, photo: null, unattended: false, lines });
  await lead.record('lot-opened', { station: n.night.mixer, material, lot, beside: true });
  return lot;
}
const rows = async (): Promise<Record<string, Record<string, unknown>[]>> =>
  (await n.night.lead.get(`/sites/${n.night.house.site}/night?day=2026-11-25`).expect(200)).body.rows;

describe('two sacks that stand open beside each other', () => {
  it('are one line, any of the two, where nobody knows which, and two again where somebody does', async () => {
    await n.place('Start');
    await n.tap(/White dough/);
    await n.tap(/^Begin/);
    await n.page.getByText('planned').waitFor();
    await n.tap('Weigh in');
    await n.tap('White flour: not sure which');
    const row = n.main().getByRole('row', { name: /White flour/ });
    expect(await row.count()).toBe(1);
    expect(await row.textContent()).toMatch(/any of.*Q-1.*Q-2/);
    await n.picture('not-sure-which');
    await n.tap('White flour: I know which');
    expect(await row.allTextContents()).not.toContainEqual(expect.stringContaining('any of'));
    await n.tap('White flour: not sure which');
    await n.tap(/^Weigh in \d/);
    await n.page.getByText('Add or adjust').waitFor();
    await n
      .main()
      .getByRole('cell', { name: /any of Q-[12], Q-[12]/ })
      .waitFor();
    await n.picture('any-of-went-in');
  });

  it('each perhaps went in, and neither surely', async () => {
    await n.page.getByText('all sent').waitFor();
    const flow = (await rows())['flow']?.filter((f) => lots.some((lot) => lot === f['source'])) ?? [];
    expect(flow.map((f) => f['source']).sort()).toEqual([...lots].sort());
    expect(flow.map((f) => f['certain'])).toEqual([false, false]);
    expect(new Set(flow.map((f) => f['anyOf'])).size).toBe(1);
    expect(flow[0]?.['mg']).toBe(flow[1]?.['mg']);
  });

  it('put what was made on hold, as possible, where one of them is', async () => {
    await lead.record('hold-placed', { lot: lots[1], deviation: null });
    await n.page.getByRole('button', { name: /^as of/ }).click();
    await n
      .main()
      .locator('.concerns')
      .getByText(/possibly came with/)
      .waitFor();
    await n.picture('possibly-on-hold');
  });

  it('fit under a finger everywhere', () => {
    expect([...n.awkward]).toEqual([]);
  });
});
