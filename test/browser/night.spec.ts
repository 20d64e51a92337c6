import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { signOn } from '../support/people.js';
import { NightTable } from './_night.js';
import { retypeOnPad, typeOnPad } from './_page.js';

let n: NightTable;
beforeAll(async () => {
  n = await NightTable.open('02:30', { offLine: true });
});
afterAll(() => n?.close());

/** Puts a product that waits into an oven, in parts where somebody says how many. */
async function load(product: string, oven: string, pieces?: string): Promise<void> {
  await n.place('Today');
  await n.tap('Into the oven');
  await n.page.getByText(oven, { exact: true }).click();
  await n
    .main()
    .getByRole('button', { name: new RegExp(`^${product}.*waiting`) })
    .click();
  if (pieces !== undefined) {
    await n
      .main()
      .getByRole('button', { name: new RegExp(`^${product}: `) })
      .click();
    await retypeOnPad(n.page, pieces);
    await n.page.getByRole('button', { name: 'Done' }).click();
  }
  await n.tap('In it goes');
  await n.page.getByText('So far').waitFor();
}

/** Takes the core of a load that is due, from the list of what is due. */
async function core(product: string, figure: string): Promise<string> {
  await n.place('Today');
  await n
    .main()
    .getByRole('link', { name: new RegExp(`${product}.*core temperature`) })
    .first()
    .click();
  await typeOnPad(n.page, figure);
  await n.tap(/^Record/);
  await n.page.locator('.verdict').waitFor();
  return (await n.verdict()) ?? '';
}

async function out(product: string, deck: string): Promise<void> {
  await n.page
    .getByRole('link', { name: new RegExp(`${product}.*${deck}`) })
    .first()
    .click();
  await n.main().getByRole('button', { name: 'Take out' }).click();
  await n.page
    .getByText('out of the oven')
    .or(n.main().getByText('out', { exact: true }))
    .first()
    .waitFor();
}

async function countOut(product: string): Promise<void> {
  await n.place('Today');
  const run = n
    .main()
    .getByRole('link', { name: new RegExp(`^${product}: `), includeHidden: true })
    .first();
  if (!(await run.isVisible()))
    await n
      .main()
      .getByText(/^Finished: /)
      .click();
  await run.click();
  await n.tap('Count out');
  await n.tap(/^Count out \d/);
  await n.page.getByText('counted').first().waitFor();
}

describe('one dough, three breads, one bad load', () => {
  it('begins with a tapped name, and a dough in two taps', async () => {
    await n.enrolAndTap('Tam Wick');
    await n.picture('empty');
    await n.place('Start');
    await n.tap(/White dough/);
    await n.picture('start');
    await n.tap(/^Begin 41.45 kg/);
    await n.page.getByText('41.45 kg planned').waitFor();
  });

  it('takes everything in as it is shown, and the mix with its temperature judged at once', async () => {
    await n.at('02:36');
    await n.tap('Weigh in');
    await n.picture('weigh');
    await n.tap(/^Weigh in \d/);
    await n.at('02:50');
    await n.tap('Mixed');
    for (const [what, figure] of [
      ['Fast', '9'],
      ['Water', '19'],
      ['Flour', '21'],
      ['Room', '24'],
      ['Dough', '28.5'],
    ] as const) {
      await n
        .main()
        .getByRole('button', { name: new RegExp(`^${what}`) })
        .click();
      await retypeOnPad(n.page, figure);
    }
    await n.picture('mix');
    await n.tap('Record the mix, dough 28.5 °C');
    await n.page.locator('.verdict').waitFor();
    expect(await n.verdict()).toBe('too high');
    expect(await n.main().textContent()).toContain(
      'Friction factor 21.5 °C against 14 °C expected. It may be minutes on fast: 9 instead of 6.',
    );
    await n.picture('mixed');
  });

  it('makes it up into three breads, and it sums', async () => {
    await n.at('03:40');
    await n.tap('Make up into products');
    for (const [what, figure] of [
      ['Old dough kept', '1200'],
      ['Scrap', '270'],
    ] as const) {
      await n.main().getByRole('button', { name: what }).click();
      await typeOnPad(n.page, figure);
      await n.page.getByRole('button', { name: 'Done' }).click();
    }
    expect(await n.main().textContent()).toContain('It sums: 41.45 kg went in.');
    await n.picture('make-up');
    await n.tap('Record the make-up');
    await n.page.getByText('it sums').waitFor();
    await n.picture('make');
  });

  it('keeps a timer for each of three breads in the prover, named, over screens and a reload', async () => {
    await n.at('03:42');
    for (const product of ['White tin 800 g', 'Bloomer 400 g', 'Bap']) {
      await n.place('Today');
      await n
        .main()
        .getByRole('link', { name: new RegExp(`^${product}(: | ×)`) })
        .first()
        .click();
      await n.tap('Into the prover');
      await n.main().getByText('prove, Prover').waitFor();
    }
    await n.page.getByText('all sent').waitFor();
    await n.place('Recent entries');
    expect(await n.running()).toEqual(['Bap, Prover', 'Bloomer 400 g, Prover', 'White tin 800 g, Prover']);
    await n.page.reload();
    await n.heading(/^Recent entries/).waitFor();
    expect(await n.running()).toEqual(['Bap, Prover', 'Bloomer 400 g, Prover', 'White tin 800 g, Prover']);
  });

  it('goes on without a network: loads, timers, cores', async () => {
    await n.page.getByText('all sent').waitFor();
    await n.at('04:00');
    await n.context.setOffline(true);
    await n.at('04:10');
    await load('White tin 800 g', 'Top deck', '10');
    await n.at('04:12');
    await load('White tin 800 g', 'Middle deck');
    expect(await n.running()).toEqual([
      'Bap, Prover',
      'Bloomer 400 g, Prover',
      'White tin 800 g, Middle deck',
      'White tin 800 g, Top deck',
    ]);
    await n.picture('four-timers');
    await n.place('Today');
    await n.picture('house');
    await n.at('04:40');
    await out('White tin', 'Top deck');
    expect(await core('White tin', '95.1')).toBe('within the limit');
    await n.at('04:42');
    await out('White tin', 'Middle deck');
    expect(await core('White tin', '95.1')).toBe('within the limit');
    await n.at('04:44');
    await load('Bloomer 400 g', 'Bottom deck');
    await n.at('04:50');
    await load('Bap', 'Rack oven', '108');
    await n.picture('timers');
    await n.at('05:01');
    await out('Bap', 'Rack oven');
    expect(await core('Bap', '93.0')).toBe('within the limit');
    await n.at('05:03');
    await load('Bap', 'Rack oven');
    expect(await n.strip()).toContain('off line');
  });

  it('says at once that 87.9 °C is too low, and puts it back in with one tap', async () => {
    await n.at('05:12');
    await out('Bloomer', 'Bottom deck');
    expect(await core('Bloomer', '87.9')).toBe('too low');
    expect(await n.main().textContent()).toContain('nothing of it leaves before this is answered.');
    await n.picture('outside');
    await n.tap('Back in the oven, 5 min');
    await n.main().getByText('back in the oven, 5 min more').waitFor();
    await n.picture('back-in');
    await n.at('05:16');
    await out('Bap', 'Rack oven');
    expect(await core('Bap', '93.0')).toBe('within the limit');
  });

  it('releases the others by rule, still off line, and says why the bloomers are on hold', async () => {
    await n.at('05:18');
    for (const product of ['White tin 800 g', 'Bloomer 400 g', 'Bap']) await countOut(product);
    for (const product of ['White tin 800 g', 'Bap']) {
      await n.place('Today');
      await n
        .main()
        .getByRole('link', { name: new RegExp(`^${product} ×.*6`) })
        .last()
        .click();
      await n.tap('Release');
      await n.page.getByText(/^Released .*, by rule$/).waitFor();
    }
    await n.place('Today');
    await n.picture('today');
    await n
      .main()
      .getByRole('link', { name: /^Bloomer 400 g ×.*6/ })
      .last()
      .click();
    await n.page.getByText('It is on hold for this').waitFor();
    await n.picture('waits');
  });

  it('releases the bloomers once the core is 94.4 °C', async () => {
    await n.at('05:20');
    await out('Bloomer', 'Bottom deck');
    await n.tap('Read core temperature again');
    await typeOnPad(n.page, '94.4');
    await n.tap(/^Record/);
    await n.page.locator('.verdict').waitFor();
    expect(await n.verdict()).toBe('within the limit');
    await n.picture('within');
    await n.place('Today');
    await n
      .main()
      .getByRole('link', { name: /^Bloomer 400 g ×.*6/ })
      .last()
      .click();
    await n.tap('Release');
    await n.page.getByText(/^Released .*, by rule$/).waitFor();
  });

  it('starts again without a network and still has everything', async () => {
    await n.page.goto('/table');
    await n.heading('Today’s bake').waitFor();
    expect(await n.strip()).toContain('waiting to be sent');
    expect(
      await n
        .main()
        .getByText(/^Released .*, by rule$/)
        .count(),
    ).toBe(3);
    await n.place('Recent entries');
    await n.picture('recent');
  });

  it('is back on line: the server agrees, and nothing is there twice', async () => {
    await n.at('05:52');
    await n.context.setOffline(false);
    await n.page.getByText('all sent').waitFor();
    const lead = await signOn(n.t, n.night.house.organisation, n.night.lead.person, n.night.lead.pin); // hours have passed since she signed on
    const { body } = await lead.get(`/sites/${n.night.house.site}/night?day=2026-11-25`).expect(200);
    const count = (name: string): number => body.rows[name].length;
    expect({
      makes: count('make'),
      loads: count('load'),
      readings: count('reading'),
      batches: count('batch'),
      releases: count('release'),
      runs: count('run'),
    }).toEqual({ makes: 1, loads: 5, readings: 7, batches: 3, releases: 3, runs: 3 });
    const held = body.rows.deviation.filter((d: { class: string }) => d.class === 'ccp');
    expect(held).toHaveLength(1);
    expect(
      body.rows.reading
        .filter((r: { subject: string }) => r.subject === held[0].subject)
        .map((r: { figure: string; verdict: string }) => [r.figure, r.verdict])
        .sort(),
    ).toEqual([
      ['87.9', 'outside'],
      ['94.4', 'within'],
    ]);
    expect(await n.strip()).not.toContain('to look at');
    await n.place('Today');
    await n.picture('after');
  });
});

describe('every screen of it', () => {
  it('has targets of 48 px and more, and fits both tablets without scrolling sideways', () => {
    expect([...n.awkward]).toEqual([]);
  });
});
