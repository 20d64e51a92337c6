import { createHash } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { uuidv7 } from '../../apps/api/src/platform/ids/index.js';
import { NightTable } from './_night.js';
import { typeOnPad } from './_page.js';

let n: NightTable;
beforeAll(async () => {
  n = await NightTable.open('07:00', { offLine: true });
  await n.enrolAndTap('Tam Wick');
  await n.page.goto('/table/goods');
  await n.heading('Goods in').waitFor();
});
afterAll(() => n?.close());

/** A picture as a camera gives it: larger than what is kept. Drawn by the browser itself. */
const camera = async (): Promise<Buffer> =>
  Buffer.from(
    await n.page.evaluate(async () => {
      const canvas = new OffscreenCanvas(2400, 1800);
      const context = canvas.getContext('2d');
      context?.fillRect(200, 200, 900, 600);
      const blob = await canvas.convertToBlob({ type: 'image/jpeg' });
      return [...new Uint8Array(await blob.arrayBuffer())];
    }),
  );
const sheet = () => n.sheet();
/** What the form of a line says now: lot, best before, how much. */
const filled = async () => [
  await sheet().getByLabel('The code on it').inputValue(),
  await sheet().getByLabel('Best before').inputValue(),
  (await sheet().getByRole('button', { name: 'How much' }).textContent())?.replace('How much', '').trim(),
];
const delivery = (text: string) => n.page.locator('article.delivery', { hasText: text });

describe('a delivery with its paper', () => {
  it('is filled in from what a scanner reads, and photographed, without a network', async () => {
    await n.tap('A delivery came');
    await n.page.getByLabel('Number on the delivery note').fill('DN 4010');
    await n.tap(/^White flour/);
    await sheet().getByText('Scan or type the code on the case').click();
    const code = sheet().getByLabel(/^The code, as scanned/);
    // A GTIN of GS1’s own example prefix 952; the separator after the lot as a program shows it, then as a scanner that types gives it.
    await code.fill(`]d2${'0109520123456788'}${'15270228'}10Q4469\u241d${'3103012500'}`);
    await sheet().getByRole('button', { name: 'Fill the form from it' }).click();
    await sheet().getByText('Read. Compare it with the label').waitFor();
    expect(await filled()).toEqual(['Q4469', '2027-02-28', '12.5 kg']);
    await code.pressSequentially(`]d2${'0109520123456788'}${'15270301'}10Q4470`);
    await code.press('Control+BracketRight');
    await code.pressSequentially('3103025000');
    await code.press('Enter');
    await sheet().getByText('25 kg').waitFor();
    expect(await filled()).toEqual(['Q4470', '2027-03-01', '25 kg']);
    await n.picture('goods-line');
    await sheet().getByRole('button', { name: 'Put it on the list' }).click();
    await n.tap(/^Cream/);
    await typeOnPad(n.page, '2');
    await sheet()
      .getByRole('button', { name: /^Temperature/ })
      .click();
    await typeOnPad(n.page, '9.4');
    await sheet().getByText('no code yet').click();
    await sheet().getByRole('button', { name: 'Put it on the list' }).click();
    await n.context.setOffline(true);
    await n.page.locator('input[type=file]').setInputFiles({ name: 'note.jpg', mimeType: 'image/jpeg', buffer: await camera() });
    await n.page.getByText('not sent yet').waitFor();
    await n.picture('goods-new');
    await n.tap('Record 2 lines');
    await n.heading('On record').waitFor();
    await n.page.reload(); // the tablet is put down and starts again before the network is back
    await n.heading('A delivery').waitFor();
    const sent = n.page.waitForResponse((r) => r.request().method() === 'PUT' && r.status() === 204);
    await n.context.setOffline(false);
    await n.at('07:01'); // nobody told the page that the network is back: it looks now and then
    await sent;
    await n.page.getByText('all sent').waitFor();
  });

  it('is in the list with what waits, and its photo, small enough, under the hash that the record names', async () => {
    await n.place('Goods in');
    await delivery('DN 4010').getByText('on hold').or(delivery('DN 4010').getByText('not decided')).first().waitFor();
    const flour = await delivery('DN 4010').locator('.row', { hasText: 'White flour' }).textContent();
    expect(flour).toContain('25 kg');
    expect(flour).toContain('lot Q4470 · best before 1 Mar 2027');
    const kept = n.page.waitForResponse((r) => r.url().includes('/photos/') && r.request().method() === 'GET' && r.status() === 200);
    await delivery('DN 4010').getByRole('button', { name: 'Show the photo' }).click();
    const answer = await kept;
    const size = await delivery('DN 4010')
      .locator('img')
      .evaluate(async (img: HTMLImageElement) => {
        await img.decode();
        return [img.naturalWidth, img.naturalHeight];
      });
    expect(size).toEqual([1600, 1200]);
    const { pathname } = new URL(answer.url());
    const { body } = await n.night.lead.get(pathname.replace('/api/v1', '')).expect(200);
    expect(pathname).toContain(createHash('sha256').update(body).digest('hex'));
    await n.picture('goods-in');
  });
});

describe('what came warm and without a code', () => {
  it('is named when somebody has the code, and refused', async () => {
    const cream = delivery('DN 4010').locator('.row', { hasText: 'Cream' });
    await cream.getByRole('button', { name: 'Cream: give its code' }).click();
    await sheet().getByLabel('The supplier’s lot code').fill('E7731');
    await sheet()
      .getByRole('button', { name: /^Name it|^Record/ })
      .click();
    await n.page.getByText('lot E7731, identified later').waitFor();
    await cream.getByRole('button', { name: 'Cream: decide' }).click();
    await sheet().getByText('refused').click();
    await sheet().getByRole('button', { name: 'Record the decision' }).click();
    await n.page.locator('.row .state', { hasText: 'refused' }).waitFor();
  });

  it('says so where a photo is named that never came', async () => {
    const { lead, house, materials } = n.night;
    const egg = {
      ...{
        lot: uuidv7(n.clock.now()),
        material: materials.egg,
        code: null,
        codeState: 'none-on-it' as const,
        quantity: null,
        asWritten: '3 × 1 kg',
      },
      ...{ bestBefore: null, useBy: null, temperature: null },
    };
    const payload = { supplier: null, noteNumber: 'DN 4011', photo: 'a'.repeat(64), unattended: true, lines: [egg] };
    const { body } = await lead.post(`/sites/${house.site}/entries`, [house.entry({ kind: 'delivery-received', payload })]).expect(200);
    expect(body).toMatchObject([{ as: 'recorded' }]);
    await n.page.reload();
    await delivery('DN 4011').getByText('3 × 1 kg').waitFor();
    await delivery('DN 4011').getByText('no lot code on it').waitFor();
    await delivery('DN 4011').getByRole('button', { name: 'Show the photo' }).click();
    await delivery('DN 4011').getByText('Its photo has not come here yet').waitFor();
    await n.picture('goods-days');
  });

  it('is found by any word on it', async () => {
    await n.page.getByLabel(/^Find a supplier/).fill('nothing like it');
    await n.page.getByText('No delivery of these days has that on it.').waitFor();
    await n.page.getByLabel(/^Find a supplier/).fill('q4470 flour');
    await delivery('DN 4010').waitFor();
  });

  it('is not among the days before, and there again among the later ones', async () => {
    await n.page.getByLabel(/^Find a supplier/).fill('');
    await n.tap('Earlier days');
    await n.page.getByText('Nothing else came in these days.').waitFor();
    expect(await delivery('DN 4010').count()).toBe(0);
    await n.tap('Later days');
    await delivery('DN 4010').waitFor();
  });

  it('fits under a finger everywhere', () => {
    expect([...n.awkward]).toEqual([]);
  });
});
