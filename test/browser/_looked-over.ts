import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { AxeResults, RunOptions } from 'axe-core';
import type { Page } from 'playwright-core';

const source = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

export const sizes = [
  { width: 320, height: 640 },
  { width: 800, height: 1280 },
  { width: 1440, height: 900 },
  { width: 1024, height: 768 },
] as const;

/** WCAG 2.2, level AA and what it stands on. */
const all: RunOptions = { runOnly: { type: 'tag', values: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'] } };
/** What a theme changes: it moves and names nothing. */
const colours: RunOptions = { runOnly: { type: 'rule', values: ['color-contrast', 'link-in-text-block'] } };

/** What is wrong with the page that is open (nothing where all is well), each line with theme or size, rule and element. */
export async function lookedOver(page: Page): Promise<string[]> {
  const found: string[] = [];
  for (const size of sizes) {
    await page.setViewportSize(size);
    found.push(...(await page.evaluate(misfits)).map((what) => `${size.width}×${size.height}: ${what}`));
  }
  await page.evaluate(`typeof axe === 'undefined' && (() => {${source}})()`);
  await themed(page, 'day');
  found.push(...(await broken(page, 'day', all)));
  await themed(page, 'night');
  found.push(...(await broken(page, 'night', colours)));
  await page.emulateMedia({ forcedColors: 'active' });
  found.push(...(await page.evaluate(unseenStates)).map((what) => `forced colours: ${what}`));
  await page.emulateMedia({ forcedColors: 'none' });
  await themed(page, 'day');
  return found;
}

/** As ui/theme.ts puts it on the page. */
const themed = (page: Page, theme: 'day' | 'night'): Promise<void> =>
  page.evaluate((to) => {
    document.documentElement.dataset['theme'] = to;
  }, theme);

async function broken(page: Page, theme: string, options: RunOptions): Promise<string[]> {
  const { violations } = await page.evaluate<Pick<AxeResults, 'violations'>>(
    `axe.run(document, ${JSON.stringify({ ...options, resultTypes: ['violations'] })}).then(({ violations }) => ({ violations }))`,
  );
  return violations.flatMap(({ id, nodes }) =>
    nodes.map(({ target, any, html }) => `${theme}: ${id}: ${target.join(' ')}: ${any[0]?.message ?? html.slice(0, 160)}`),
  );
}

/** Runs in the page with forced colours, where grounds and shadows are gone and the colours are the reader's own: what is chosen or open has a line of its own. */
function unseenStates(): string[] {
  const chosen = '.chosen, [aria-pressed="true"], .places [aria-current]';
  return [...document.querySelectorAll(chosen)]
    .filter((e) => e.checkVisibility() && getComputedStyle(e).outlineStyle === 'none')
    .map((e) => `it cannot be seen that this one is chosen: ${e.className} “${e.textContent.slice(0, 40)}”`);
}

/** Runs in the page: targets below 44 px either way, and a page that is wider than its screen with what makes it so. */
function misfits(): string[] {
  const open = document.querySelector('dialog[open]') ?? document;
  const called = (e: Element): string =>
    `${e.tagName.toLowerCase()}${e.className === '' ? '' : `.${String(e.className)}`} “${(e.getAttribute('aria-label') ?? e.textContent).trim().slice(0, 40)}”`;
  const small = [...open.querySelectorAll('a[href], button, summary, select, textarea, input, .choice label, .ticks label')]
    // a tick or a choice is as large as its label
    .filter((e) => !(e instanceof HTMLInputElement && e.closest('label') !== null))
    .map((e) => ({ e, box: e.getBoundingClientRect() }))
    .filter(({ e, box }) => e.checkVisibility() && (box.height < 43.5 || box.width < 43.5))
    .map(({ e, box }) => `target of ${Math.round(box.width)} × ${Math.round(box.height)} px: ${called(e)}`);
  const width = document.documentElement.clientWidth;
  if (document.documentElement.scrollWidth <= width) return small;
  const clipped = (e: Element): boolean => {
    for (let up = e.parentElement; up !== null && up !== document.body; up = up.parentElement)
      if (getComputedStyle(up).overflowX !== 'visible') return true;
    return false;
  };
  const wide = [...document.body.querySelectorAll('*')].filter((e) => e.getBoundingClientRect().right > width + 0.5 && !clipped(e));
  return [...small, `${document.documentElement.scrollWidth} px wide: ${wide.slice(-1).map(called).join()}`];
}
