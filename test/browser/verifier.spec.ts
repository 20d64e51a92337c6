import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import { readBundle } from '@bakehouse/ledger';
import type { Browser, Page } from 'playwright-core';
import { body, bundleOf, keyOf, sealOf, withEntry } from '../support/bundles.js';
import { writeVerifiers } from '../support/verifiers.js';
import { openBrowser } from './_page.js';

const golden = readFileSync(path.join(import.meta.dirname, '../reference/golden/bundle.json'), 'utf8');
let folder: string;
let browser: Browser;
let page: Page;
const went: string[] = [];
const at = (name: string): string => path.join(folder, name);
beforeAll(async () => {
  folder = mkdtempSync(path.join(tmpdir(), 'verifier-'));
  writeVerifiers(folder);
  browser = await openBrowser();
});
afterAll(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true });
});
beforeEach(async () => {
  const context = await browser.newContext({ offline: true });
  page = await context.newPage();
  went.length = 0;
  page.on('request', (request) => went.push(new URL(request.url()).protocol));
  page.on('console', (message) => went.push(message.text()));
  await page.goto(pathToFileURL(at('verify.html')).href);
});

async function checked(text: string, had = ''): Promise<string> {
  writeFileSync(at('bundle.json'), text);
  await page.getByLabel('The file with the records').setInputFiles(at('bundle.json'));
  await page.getByLabel('What you had before').fill(had);
  await page.getByRole('button', { name: 'Check' }).click();
  await page.locator('.verdict').waitFor();
  return page.locator('.verdict').innerText();
}
const result = () => page.locator('#result');

describe('the page that checks records, opened from disk without a network', () => {
  it('says what was compared with what, shows what an entry says, and asks for nothing but itself', async () => {
    expect(await checked(golden)).toBe('The file fits its own seal. You compared it with nothing that you had before.');
    expect(await checked(golden, `${keyOf()}\n${sealOf(8)}`)).toBe('All that was checked fits.');
    await result().getByText('Entry 5: as it was sealed').click();
    expect(await result().locator('pre').innerText()).toMatch(/note: Zwölf Brötchen, Blech 5[^]*"celsius": "94.5"/);
    expect(await result().getByText('Entry 9: sealed; its content is not given and was not checked').count()).toBe(1);
    expect(await result().innerText()).toContain('A seal that never left the house proves little');
    expect(went).toEqual(['file:']);
  });

  it('names an entry that was changed, and a seal that the reader had and the file does not hold', async () => {
    const [site, house] = readBundle(golden)?.books ?? [];
    if (!site || !house) throw new Error('no golden bundle');
    const bytesBase64 = Buffer.from(body(6, '99.5')).toString('base64');
    const changed = JSON.stringify(
      bundleOf(
        withEntry(site, 6, (entry) => ({ ...entry, bytesBase64 })),
        house,
      ),
    );
    expect(await checked(changed, keyOf())).toBe('Something does not fit. See below.');
    expect(await result().innerText()).toContain('Entry 6 IS NOT WHAT WAS SEALED at this place.');
    expect(await checked(golden, sealOf(7))).toBe('Something does not fit. See below.');
    expect(await result().innerText()).toContain('Something that you had before is not in this file');
    expect(await checked('{}')).toBe('This is no file of records that this page can read.');
  });

  it('runs no script that a file brings along, and can send nothing anywhere', async () => {
    const [site] = readBundle(golden)?.books ?? [];
    const evil = '<img src=x onerror="document.title=1"><script>document.title=2</script>';
    await checked(
      JSON.stringify(bundleOf({ ...(site ?? { checkpoint: '', verifierKey: '', first: 0, count: 0, entries: [] }), name: evil })),
    );
    expect(await result().innerText()).toContain(evil);
    expect(await page.title()).toBe('Check the records of a bakehouse');
    expect(
      await page.evaluate(() =>
        fetch('http://127.0.0.1:9/').then(
          () => 'sent',
          () => 'refused',
        ),
      ),
    ).toBe('refused');
    expect(went.join(' ')).toMatch(/Content Security Policy/);
  });
});
