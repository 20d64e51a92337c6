import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { uuidv7 } from '../../apps/api/src/platform/ids/index.js';
import { at } from '../support/bakehouse.js';
import { Hand } from '../support/hand.js';
import { NightTable } from './_night.js';

/** Counts in the page what goes to the loudspeaker, to the motor and to the screen's lock; what a test browser has no hardware for answers as if it had. */
const counted = `
  const counts = { knocks: 0, shaken: 0, awake: 0 };
  const count = (of, by) => { counts[of] += by; const e = document.documentElement; if (e) e.dataset[of] = counts[of]; };
  const start = OscillatorNode.prototype.start;
  OscillatorNode.prototype.start = function (...when) { count('knocks', 1); return start.apply(this, when); };
  navigator.vibrate = () => { count('shaken', 1); return true; };
  Object.defineProperty(navigator, 'wakeLock', { configurable: true, value: { request: async () => {
    count('awake', 1);
    return { released: false, release: async function () { if (!this.released) { this.released = true; count('awake', -1); } } };
  } } });
`;
let n: NightTable;
const loads: string[] = [];
beforeAll(async () => {
  n = await NightTable.open('04:20');
  await n.context.addInitScript(counted);
  const lead = new Hand(n.night.house, n.night.lead);
  const rows = (await n.night.lead.get(`/sites/${n.night.house.site}/night?day=2026-11-25`).expect(200)).body.rows;
  const id = (of: { id: string } | undefined): string => String(of?.id);
  const oven = id(rows.place.find((p: { name: string }) => p.name === 'Deck oven'));
  const deck = id(rows.place.find((p: { name: string }) => p.name === 'Top deck'));
  const makeOf = { formulaVersion: id(rows.formulaVersion[0]), station: n.night.mixer, plan: null, bakeDay: '2026-11-25', plannedMg: null };
  const make = (await lead.record('make-begun', makeOf)).id;
  const run = uuidv7(n.clock.now());
  const runs = [{ run, product: n.night.products.tin, heads: null, pieces: 20, scaling: { figure: '910', unit: 'g' as const } }];
  await lead.record('divided', { make, quantity: null, oldDough: null, scrap: null, runs });
  for (const [time, minutes] of [
    ['04:00', 30],
    ['04:15', 40],
  ] as const) {
    const payload = { oven, deck, plan: null, bakeDay: '2026-11-25', setting: null, minutes, lines: [{ run, pieces: 10 }] };
    loads.push((await lead.record('load-in', payload, { at: at(time) })).id);
  }
  await n.enrolAndTap('Tam Wick');
});
afterAll(() => n?.close());

const bar = () => n.page.locator('.ringing');
const count = (of: 'knocks' | 'shaken' | 'awake'): Promise<number> =>
  n.page.locator('html').evaluate((e, name) => Number(e.dataset[name] ?? 0), of);
/** Whether a finger that taps in the middle of it finds it, and not something in front of it. */
const isOnTop = (): Promise<boolean> =>
  n
    .sheet()
    .locator('.ringing')
    .evaluate((e) => {
      const { x, y, width, height } = e.getBoundingClientRect();
      return e.contains(document.elementFromPoint(x + width / 2, y + height / 2));
    });
const screenIs = (awake: number): Promise<unknown> => n.page.locator(`html[data-awake="${awake}"]`).waitFor();

describe('a timer', () => {
  it('keeps the screen on while it runs, and rings when it is over: to be heard, felt and read', async () => {
    await screenIs(1);
    expect([await bar().count(), await count('knocks'), await count('shaken')]).toEqual([0, 0, 0]);
    await n.wallTo('04:30');
    await bar()
      .getByText(/Top deck, time is up/)
      .waitFor();
    await n.page.locator('html[data-knocks]').waitFor();
    expect(await count('shaken')).toBeGreaterThan(0);
    await n.picture('rings');
    const before = await count('shaken');
    await n.page.clock.fastForward(10_000);
    expect(await count('shaken')).toBeGreaterThan(before);
    await bar().getByRole('link').click();
    await n.heading(/White tin 800 g × 10/).waitFor();
    await bar().waitFor(); // on every screen
  });

  it('is quiet after one key, on this device for good, and runs on', async () => {
    await bar().getByRole('button', { name: 'Quiet' }).click();
    await bar().waitFor({ state: 'detached' });
    const before = await count('shaken');
    await n.page.clock.fastForward(20_000);
    expect(await count('shaken')).toBe(before);
    await n.page.reload();
    await n.heading(/White tin 800 g × 10/).waitFor();
    await n.page.getByRole('list', { name: 'Running now' }).getByText('over').waitFor();
    await n.page.clock.fastForward(5_000);
    expect(await bar().count()).toBe(0);
  });

  it('that rings is not covered by the question of an idle session, and is made quiet there by anybody', async () => {
    await n.wallTo('04:56'); // the page ran ahead of the service's clock above;
    await n.sheet().getByRole('heading', { name: 'Sign on' }).waitFor();
    await n.sheet().locator('.ringing').waitFor();
    expect(await isOnTop()).toBe(true);
    await n.picture('rings-idle');
    await n.sheet().getByRole('button', { name: 'Quiet' }).click();
    await bar().first().waitFor({ state: 'detached' });
    await n.sheet().getByRole('button', { name: 'Carry on as Tam Wick' }).click(); // it is asked all the same
  });

  it('says once what this tablet cannot do for it', async () => {
    const other = await n.context.newPage();
    await other.addInitScript(
      `Object.defineProperty(navigator, 'wakeLock', { value: { request: () => Promise.reject(new Error('not here')) } });`,
    );
    const said = other.getByText('It does not keep its screen on for timers');
    await other.goto('/table');
    await other.getByRole('button', { name: 'Carry on as Tam Wick' }).click();
    await said.waitFor();
    await other.getByRole('button', { name: 'Understood' }).click();
    await said.waitFor({ state: 'detached' });
    await other.reload();
    await other.getByRole('heading', { level: 1, name: 'Today’s bake' }).waitFor();
    await other.locator('.table-shell').waitFor();
    expect(await said.count()).toBe(0);
    await other.close();
  });

  it('gives the screen back when nothing is timed any more', async () => {
    await screenIs(1);
    for (const load of loads) {
      await n.page.goto(`/table/load/${load}`);
      await n.tap('Take out');
      await n
        .main()
        .getByText(/· out /)
        .waitFor();
    }
    await screenIs(0);
  });

  it('and its keys fit under a finger', () => {
    expect([...n.awkward]).toEqual([]);
  });
});
