import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { Viewings } from '@bakehouse/contracts';
import { inspectionPack, type InspectionView } from '@bakehouse/contracts';
import { readBundle, verifyBundle } from '@bakehouse/ledger';
import { Ajv2020 } from 'ajv/dist/2020.js';
import addFormats from 'ajv-formats';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { connected } from '../../apps/api/src/platform/database/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, celsius, g } from '../support/bakehouse.js';
import { signOn, type Caller } from '../support/people.js';
import { queriesDuring } from '../support/queries-during.js';
import { fileFrom, pagesOf } from '../support/read-papers.js';

const day = '2026-11-25';
const clock = new SettableClock(`${day}T14:00:00Z`);
let t: TestApp;
let b: Bakehouse;
let view: InspectionView;
let [load, typo] = ['', ''];
const path = (rest = ''): string => `/sites/${b.site}/inspection${rest}`;
beforeAll(async () => {
  t = await startTestApp({ clock, env: { SEAL_KEY: Buffer.alloc(32, 7).toString('base64') } });
  b = await Bakehouse.found(t);
  const make = await b.begun('white', at('02:35'), { station: b.place('mixer') });
  typo = (await b.baker.record('reading-taken', b.reading('dough', 'make', make, '82.5'), { at: at('02:50') })).id;
  await b.baker.record('reading-taken', b.reading('dough', 'make', make, '25.8'), {
    at: at('02:50'),
    corrects: typo,
    words: { reason: 'figures swapped' },
  });
  await b.baker.record('weighed-in', { make, lines: [b.into('flour', '3600'), b.into('water', '2000')] }, { at: at('02:40') });
  const run = b.newId();
  await b.baker.record(
    'divided',
    {
      make,
      quantity: null,
      oldDough: null,
      scrap: null,
      runs: [{ run, product: b.material('bloomer'), heads: null, pieces: 12, scaling: g('465') }],
    },
    { at: at('03:20') },
  );
  load = (
    await b.baker.record(
      'load-in',
      {
        oven: b.place('deckOven'),
        deck: null,
        plan: b.plan,
        bakeDay: day,
        setting: celsius('230'),
        minutes: 28,
        lines: [{ run, pieces: 12 }],
      },
      { at: at('04:40') },
    )
  ).id;
  await b.baker.record('reading-taken', b.reading('bloomer-core', 'load', load, '87.9'), { at: at('05:12') });
  const deviation = (await b.night()).deviation.find((d) => d.subject === load)?.id ?? '';
  await b.baker.record('corrective-action-taken', { deviation, type: 'back-in-the-oven' }, { at: at('05:13') });
  await b.baker.record('reading-taken', b.reading('bloomer-core', 'load', load, '94.4'), { at: at('05:18') });
  await b.lead.record('deviation-closed', { deviation, staysOnHold: [] }, { words: { review: 'oven door seal to be looked at' } });
  const batch = (
    await b.baker.record(
      'batch-counted-out',
      { run, loads: [load], pieces: 12, rejects: 0, code: '6329-B', bakedOn: day, bestBefore: null, useBy: null },
      { at: at('05:40') },
    )
  ).id;
  await b.baker.record('released-by-rule', { batch }, { at: at('05:41') });
  const cream = await b.delivered('cream', at('06:10'), {
    temperature: { figure: '9.4', unit: 'degC', measured: 'between-packs', point: b.point('chilled-in'), instrument: null },
  });
  await b.lead.record('receipt-decided', { lot: cream, decision: 'refused' }, { at: at('07:40') });
  await b.baker.record(
    'cleaned-down',
    { place: b.place('mixer'), type: 'wet', chemical: 'sanitiser', dilution: '1:50', contactSeconds: 300 },
    { at: at('12:00') },
  );
  view = (await b.baker.caller.get(path()).expect(200)).body;
});
afterAll(() => t.close());

const inspector = async (sites: readonly string[], from: string, until: string | null): Promise<Caller> => {
  const { person, pin } = await b.house.join('Ina Spector', []);
  await b.house.decide({ kind: 'access-given', payload: { person, sites: [...sites], from, until, expires: '2026-11-27T00:00:00Z' } });
  return signOn(t, b.house.organisation, person, pin);
};

describe('show the officer', () => {
  it('is today, for somebody who tapped their name', () => {
    expect(view).toMatchObject({ from: day, until: day, site: { id: b.site, zone: 'Europe/London' } });
    expect(view.caution).toContain('validated by a competent person');
    expect(view.plans).toMatchObject([{ name: 'Plan', number: 1, signedBy: 'Lee Dehl', until: null }]);
    expect(view.plans[0]?.points.find((p) => p.key === 'bloomer-core')?.limit).toEqual({
      type: 'range',
      min: '93',
      max: null,
      unit: 'degC',
    });
  });

  it('gives actual values with limit, verdict, time and name, never only that it was in order (21 CFR 117.305)', () => {
    expect(view.loads[0]?.readings.map((r) => [r.figure, r.unit, r.verdict, r.at, r.doneBy])).toEqual([
      ['87.9', 'degC', 'outside', `${day}T05:12:00.000Z`, 'Bo Baker'],
      ['94.4', 'degC', 'within', `${day}T05:18:00.000Z`, 'Bo Baker'],
    ]);
    expect(view.loads[0]).toMatchObject({ oven: 'deckOven', celsius: 230, products: [{ name: 'bloomer 400 g', pieces: 12 }] });
  });

  it('shows the deviation, the corrective action, the reading after it, and who closed it', () => {
    expect(view.deviations.find((d) => d.subject === load)).toMatchObject({
      type: 'limit',
      holds: true,
      onHold: false, // read again within, after something was done: it began as a hold and is none now
      subjectName: 'bloomer 400 g',
      actions: [{ type: 'back-in-the-oven', doneBy: 'Bo Baker' }],
      readAgain: [{ figure: '94.4' }],
      closed: { by: 'Lee Dehl', selfReview: false, review: 'oven door seal to be looked at' },
    });
  });

  it('says so where somebody closed what they did themselves', async () => {
    const { id } = await b.lead.record(
      'deviation-reported',
      { subjectType: 'site', subject: b.site, class: 'oprp', holds: false },
      { at: at('13:00'), words: { what: 'a cracked jug' } },
    );
    await b.lead.record('deviation-closed', { deviation: id, staysOnHold: [] });
    const { body } = await b.lead.caller.get(path()).expect(200);
    expect(body.deviations.find((d: { id: string }) => d.id === id)).toMatchObject({
      summary: 'a cracked jug',
      closed: { by: 'Lee Dehl', selfReview: true },
    });
  });

  it('shows goods with temperature and decision, batches with their release, and clean-downs', () => {
    expect(view.deliveries).toMatchObject([
      {
        noteNumber: 'DN 1',
        lots: [
          {
            name: 'cream',
            temperatures: [{ figure: '9.4', verdict: 'outside' }],
            decisions: [{ decision: 'refused', recordedBy: 'Lee Dehl' }],
          },
        ],
      },
    ]);
    expect(view.batches).toMatchObject([{ code: '6329-B', pieces: 12, release: { way: 'by-rule', by: 'Bo Baker' } }]);
    expect(view.checks.cleanDowns).toMatchObject([{ place: 'mixer', chemical: 'sanitiser', contactSeconds: 300 }]);
    expect(view.counts).toMatchObject({
      makes: 1,
      loads: 1,
      batches: 1,
      releasedByRule: 1,
      lotsReceived: 1,
      lotsRefused: 1,
      corrections: 1,
    });
  });

  it('shows both versions of what was corrected, with the reason', () => {
    expect(view.corrections).toMatchObject([
      {
        root: typo,
        kind: 'reading-taken',
        versions: [
          { content: { value: { figure: '82.5' } }, reason: null, changes: [] },
          {
            content: { value: { figure: '25.8' } },
            reason: 'figures swapped',
            changes: [{ before: '82.5 °C', after: '25.8 °C' }],
            by: 'Bo Baker',
          },
        ],
      },
    ]);
  });

  it('stands under the seals of the site’s and the organisation’s book', async () => {
    expect(view.seals.map((s) => s.book)).toEqual([b.site, expect.any(String)]);
    expect((await b.baker.caller.get(`/sites/${b.site}/seals/${view.seals[0]?.size}`).expect(200)).body).toEqual(view.seals[0]);
  });
});

describe('the pack', () => {
  it('prints it, with the caution, the seal and the page on every page', async () => {
    const { bytes, headers } = await fileFrom(b.baker.caller, path('/pack.pdf'));
    expect(headers['content-disposition']).toBe(`attachment; filename="inspection-${day}-${day}.pdf"`);
    const pages = await pagesOf(bytes);
    const text = pages.map((p) => p.text).join(' ');
    for (const said of [
      'The record it came from was corrected: 25.8 °C, within the limit',
      '87.9 °C',
      '93 °C or more',
      '94.4 °C',
      'OUTSIDE LIMIT',
      'Baked longer',
      '9.4 °C',
      'REFUSED',
      'figures swapped',
      '82.5 °C changed to 25.8 °C',
      '25 Nov 2026 05:12',
      'Signed note',
    ])
      expect(text).toContain(said);
    pages.forEach((page, i) => {
      expect(page.text).toContain(`page ${i + 1} of ${pages.length}`);
      expect(page.text).toContain('validated by a competent person');
      expect(page.text).toMatch(/code [0-9A-Z]{4}-[0-9A-Z]{4}/);
    });
    expect(pages.flatMap((p) => p.items.filter((i) => i.upright && i.text.trim() !== '' && i.x + i.width > p.width - 30))).toEqual([]);
  });

  it('hands it out as JSON with the schema that it fits', async () => {
    const { body } = await b.lead.caller.get(path('/pack.json')).expect(200);
    const pack = inspectionPack.parse(body);
    expect(addFormats.default(new Ajv2020({ strict: false })).validate(pack.schema, body)).toBe(true);
    expect(pack.says.join(' ')).toMatch(/can rewrite everything and seal that, and it verifies/);
  });
});

describe('the sealed records of a period', () => {
  it('are verified by an outsider, with earlier seals; notes and reasons open what was sealed, and no name is among them', async () => {
    const text = JSON.stringify((await b.lead.caller.get(path('/bundle.json')).expect(200)).body);
    const read = readBundle(text);
    if (!read) throw new Error('no bundle');
    const words = read.books.flatMap((book) => book.entries.flatMap((e) => (e.words ?? []).map((w) => `${w.field}: ${w.text}`)));
    expect(words).toEqual(expect.arrayContaining(['reason: figures swapped', 'review: oven door seal to be looked at']));
    expect(text).not.toContain('Bo Baker');
    const { ok, books } = verifyBundle(read);
    expect([ok, books.map((book) => book.seal)]).toEqual([true, ['good', 'good']]);
    expect(books[0]).toMatchObject({ name: 'Mill Lane', findings: [], wordsOpened: words.length });
    expect(books[0]?.counts['in-the-tree']).toBeGreaterThan(10);
    expect(books[0]?.earlier.map((e) => e.finding)).toContain('good');
    const changed = readBundle(text.replace('figures swapped', 'figures swopped'));
    expect(changed && verifyBundle(changed).books[0]?.findings.map((f) => f.finding)).toEqual(['word-differs']);
  });
});

describe('an inspector', () => {
  const routes = ['', '/pack.json', '/bundle.json', '/pack.pdf'];

  it('sees the days and the site that were given, and it is noted what was viewed and what was taken', async () => {
    const ina = await inspector([b.site], '2026-11-20', null);
    for (const route of routes) await ina.get(path(route)).expect(200);
    const { rows } = await connected(t.database.ownerUrl, (owner) =>
      owner.query('SELECT what, exported FROM viewing WHERE person = $1 ORDER BY at, id', [ina.person]),
    );
    expect(rows.map((r) => r.exported).sort()).toEqual([false, true, true, true]);
    expect(rows.map((r) => r.what)).toEqual(
      expect.arrayContaining(['the records of a period', 'the inspection pack, as PDF', 'the sealed records of a period']),
    );
  });

  it('sees no other day, by any route, and nothing is noted as seen', async () => {
    const ina = await inspector([b.site], '2026-11-20', '2026-11-24');
    for (const route of routes) {
      await ina.get(path(route)).expect(403);
      await ina.get(path(`${route}?from=2026-11-19&until=2026-11-20`)).expect(403);
    }
    await ina.get(path('?from=2026-11-20&until=2026-11-24')).expect(200);
    const { viewings } = (await b.house.administrator.get('/viewings').expect(200)).body as Viewings;
    expect(viewings.filter((v) => v.person.id === ina.person)).toMatchObject([
      { site: { id: b.site }, what: 'the records of a period', days: { from: '2026-11-20', until: '2026-11-24' }, exported: false },
    ]);
    for (const other of [ina, b.baker.caller]) await other.get('/viewings').expect(403);
  });

  it('sees no other site, and another house nothing', async () => {
    const other = await Bakehouse.found(t);
    const ina = await inspector([b.site], '2026-11-20', null);
    for (const route of routes) {
      expect((await ina.get(`/sites/${other.site}/inspection${route}`)).status).toBeGreaterThanOrEqual(400);
      await other.lead.caller.get(path(route)).expect(422);
    }
  });
});

describe('what is asked for', () => {
  it('is at most 31 days, in order, and nothing misspelt', async () => {
    await b.lead.caller.get(path('?from=2026-10-26&until=2026-11-25')).expect(200);
    for (const bad of ['?from=2026-10-25&until=2026-11-25', '?from=2026-11-25&until=2026-11-24'])
      await b.lead.caller.get(path(bad)).expect(422);
    for (const bad of ['?from=2026-02-30', '?to=2026-11-25']) await b.lead.caller.get(path(bad)).expect(400);
  });

  it('costs the same queries however much it is', async () => {
    const asked = (query: string): Promise<number> => queriesDuring(() => b.lead.caller.get(path(query)).expect(200));
    await asked('');
    expect(await asked('')).toBeLessThan(150); // round by round, as far upstream as its batches go
  });
});
