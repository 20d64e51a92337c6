import type { AddressInfo } from 'node:net';
import type { Browser, BrowserContext, Locator, Page } from 'playwright-core';
import { startTestApp, type TestApp } from '../support/app.js';
import { RunningClock } from '../support/running-clock.js';
import { nightHouse, type AlsoThere, type NightHouse, type SiteClock } from './_house.js';
import { builtPages, openBrowser, keepPicture, untilSent } from './_page.js';

const sizes = { wide: { width: 1024, height: 768 }, tall: { width: 800, height: 1280 } } as const;

interface OfNight extends AlsoThere {
  readonly date?: string;
  readonly site?: SiteClock;
  /** The browser keeps the pages for when there is no network, as every tablet does. It costs as much as loading them twice, so only a test that needs it says so. */
  readonly offLine?: boolean;
}

/** The real service, the web app as it is built now, and one tablet in a real browser, all showing the same time. */
export class NightTable {
  private constructor(
    readonly t: TestApp,
    readonly clock: RunningClock,
    readonly night: NightHouse,
    readonly context: BrowserContext,
    readonly page: Page,
    private readonly browser: Browser,
    private readonly date: string,
    private readonly offLine: boolean,
  ) {}

  /** Times are UTC, as those of `at` and `wallTo`. */
  static async open(time: string, { date = '2026-11-25', site, offLine = false, ...also }: OfNight = {}): Promise<NightTable> {
    const clock = new RunningClock(`${date}T${time}:00Z`);
    const web = builtPages();
    const t = await startTestApp({ clock, webFolder: web });
    await t.app.listen(0, '127.0.0.1');
    const night = await nightHouse(t, site, also);
    const browser = await openBrowser();
    const { port } = t.server.address() as AddressInfo; // it listens on a port
    const context = await browser.newContext({
      viewport: sizes.wide,
      hasTouch: true,
      baseURL: `http://127.0.0.1:${port}`,
      serviceWorkers: offLine ? 'allow' : 'block',
    });
    context.setDefaultTimeout(30_000);
    await context.clock.install({ time: clock.now() });
    return new NightTable(t, clock, night, context, await context.newPage(), browser, date, offLine);
  }

  async close(): Promise<void> {
    await this.browser.close();
    await this.t.close();
  }

  /** Both clocks on the wall show this, and the tablet's own timers have run until then; gives how far ahead that was. */
  async wallTo(time: string, date = this.date): Promise<number> {
    this.clock.set(`${date}T${time}:00Z`);
    const ahead = this.clock.now().getTime() - (await this.page.evaluate(() => Date.now()));
    if (ahead > 0) await this.page.clock.fastForward(ahead);
    return ahead;
  }

  /** The same, at the table: the person who was signed on carries on, where nobody touched the tablet for a while. */
  async at(time: string): Promise<void> {
    const ahead = await this.wallTo(time);
    if (ahead < 15 * 60_000 || (await this.page.locator('.strip .who').count()) === 0) return;
    const carryOn = this.page.getByRole('button', { name: /^Carry on as/ });
    await carryOn.click();
    await carryOn.waitFor({ state: 'detached' });
  }

  main(): Locator {
    return this.page.locator('main');
  }
  heading(text: string | RegExp): Locator {
    return this.page.getByRole('heading', { level: 1, name: text });
  }
  strip(): Promise<string | null> {
    return this.page.locator('.strip-state').textContent();
  }
  verdict(): Promise<string | null> {
    return this.page.locator('.verdict-word').textContent();
  }

  /** What the timers are called, on whatever screen but the first. */
  async running(): Promise<string[]> {
    const timers = this.page.getByRole('list', { name: 'Running now' }).getByRole('listitem');
    const one = (part: string): Promise<string[]> => timers.locator(part).allTextContents();
    const [names, places] = [await one('.timer-name'), await one('.timer-where')];
    return names.map((name, i) => `${name}, ${places[i]?.replace(', over', '')}`).sort();
  }

  /** Taps the first button or link of that name. */
  tap(name: string | RegExp, scope = this.main()): Promise<void> {
    return scope.getByRole('button', { name }).or(scope.getByRole('link', { name })).first().click();
  }

  sends(act: () => Promise<void>): Promise<void> {
    return untilSent(this.page, act);
  }

  /** A row of one of the office’s tables. */
  row(name: string | RegExp): Locator {
    return this.main().getByRole('row', { name });
  }

  /** Goes to one of the places that are in the line on top, or behind its last key. */
  async place(name: string): Promise<void> {
    const places = this.page.getByRole('navigation', { name: 'Places' });
    const link = places.getByRole('link', { name, exact: true });
    if (!(await link.isVisible())) await places.getByText('More', { exact: true }).click();
    await link.click();
  }

  /** The sheet that is asked something in front of the screen. */
  sheet(): Locator {
    return this.page.locator('dialog[open]');
  }

  /** What a finger would miss, or would have to scroll sideways for, on any screen that a picture was taken of. */
  readonly awkward = new Set<string>();

  /** Both sizes that the table's tablets have, looked over for what a finger cannot use. */
  async picture(name: string): Promise<void> {
    for (const [size, viewport] of Object.entries(sizes)) {
      await this.page.setViewportSize(viewport);
      for (const found of await this.page.evaluate(findAwkward)) this.awkward.add(`${name}, ${size}: ${found}`);
      await keepPicture(this.page, `${name}-${size}`);
    }
    await this.page.setViewportSize(sizes.wide);
  }

  /** Makes this browser one of the house's tablets, and taps a name. */
  async enrolAndTap(name: string): Promise<void> {
    const { body } = await this.night.house.administrator
      .post('/devices/enrolment-codes', { site: this.night.house.site, currentPin: this.night.house.administrator.pin })
      .expect(201);
    await this.page.goto('/');
    await this.page.getByText('Make this one of the bakehouse’s tablets').click();
    await this.page.getByLabel('Code').fill(String(body.code));
    await this.tap('Enrol');
    await this.page.locator('.hall').getByText('Table').waitFor();
    await this.picture('names');
    await this.tap(name);
    await this.heading('Today’s bake').waitFor();
    if (this.offLine) await this.page.evaluate(() => navigator.serviceWorker.ready.then(() => true));
  }
}

/** Runs in the page: targets below 48 px either way, and a page that is wider than its screen. */
function findAwkward(): string[] {
  const open = document.querySelector('dialog[open]') ?? document;
  const targets = [
    ...open.querySelectorAll<HTMLElement>('a[href], button, summary, select, textarea, input:not([type="radio"]), .choice label'),
  ];
  const small = targets
    .map((e) => ({ e, box: e.getBoundingClientRect() }))
    .filter(({ e, box }) => e.checkVisibility() && (box.height < 47.5 || box.width < 47.5));
  const wide =
    document.documentElement.scrollWidth > window.innerWidth ? [`the page is ${document.documentElement.scrollWidth} px wide`] : [];
  return [
    ...small.map(
      ({ e, box }) =>
        `“${(e.getAttribute('aria-label') ?? e.textContent).slice(0, 40)}” is ${Math.round(box.width)} × ${Math.round(box.height)} px`,
    ),
    ...wide,
  ];
}
