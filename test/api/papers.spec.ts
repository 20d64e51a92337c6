import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { recallPaper } from '@bakehouse/contracts';
import { Ajv2020 } from 'ajv/dist/2020.js';
import addFormats from 'ajv-formats';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { connected } from '../../apps/api/src/platform/database/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { Bakehouse } from '../support/bakehouse.js';
import { nutsWeek, type NutsWeek } from '../support/nuts-week.js';
import { signOn, type Caller } from '../support/people.js';
import { fileFrom, pagesOf, sheetsOf, wallOf, type Page, type ReadSheet } from '../support/read-papers.js';

const clock = new SettableClock('2026-11-25T14:00:00Z');
const band = 'PRACTICE. NOT A REAL RECALL.';
let t: TestApp;
let b: Bakehouse;
let week: NutsWeek;
let lead: Caller;
let [real, practice] = ['', ''];
beforeAll(async () => {
  t = await startTestApp({ clock, env: { SEAL_KEY: Buffer.alloc(32, 7).toString('base64') } });
  b = await Bakehouse.found(t);
  week = await nutsWeek(b);
  lead = b.lead.caller;
  [practice, real] = [await opened(true), await opened(false)];
});
afterAll(() => t.close());

async function opened(isPractice: boolean): Promise<string> {
  const id = b.newId();
  await lead
    .post('/recalls', {
      id,
      suspect: [week.almond],
      hazard: 'microbiological',
      hazardName: 'Salmonella',
      practice: isPractice,
      said: 'The importer rang about 面包 lot A77',
    })
    .expect(200);
  return id;
}
const pdf = async (recall: string): Promise<Page[]> => pagesOf((await fileFrom(lead, `/recalls/${recall}/papers/recall.pdf`)).bytes);

describe('the papers of a recall, printed', () => {
  let pages: Page[];
  beforeAll(async () => {
    pages = await pdf(real);
  });
  const whole = (): string => pages.map((p) => p.text).join(' ');

  it('begin with a notice that says what it is, what it concerns, what the hazard is and what to do (21 CFR 7.49)', () => {
    const [first] = pages;
    for (const said of [
      'URGENT: FOOD RECALL',
      'Salmonella',
      'ground almond',
      'A77',
      'almond tartlet',
      '546 pieces',
      '25-tartlet',
      'Do not sell, serve, use, send out',
      'Report back today',
      'by Lee Dehl',
      'The competent authority decides which of the two it is, and its class',
      'A US “market withdrawal” is something else',
      'may make people ill. Small children',
    ])
      expect(first?.text).toContain(said);
  });

  it('give the contact list in calling order, unattended marked, certain apart from possible', () => {
    const list = pages.find((p) => p.text.includes('Contact list'))?.text ?? '';
    const names = ['Food bank', 'Primary school', 'Early café', 'Station café', 'Garden café', 'Café at the lock'];
    const places = names.map((name) => list.indexOf(name));
    expect(places.every((at) => at > 0)).toBe(true);
    expect(places.slice(0, 2)).toEqual([...places].sort((x, y) => x - y).slice(0, 2));
    const between = (from: string, until: string): string => list.slice(list.indexOf(from), list.indexOf(until));
    expect(between('Primary school', 'Early café')).toMatch(/possible.*treacle tart, 24-tart: 15 pieces/);
    expect(between('Food bank', 'Primary school')).toMatch(/certain.*21-tartlet: 16 pieces/);
    expect(list.slice(list.indexOf('Early café'))).toContain('LEFT UNATTENDED');
    expect(list).toContain('01632 960016');
    expect(list).toMatch(/told no answer message/);
  });

  it('show what is on hold, what was on the counter, what does not add up, and the seals over the scope', async () => {
    const { body } = await lead.get(`/recalls/${real}`).expect(200);
    const text = whole();
    for (const said of [
      '5.36 kg',
      '72 pieces',
      'on hold',
      'Unaccounted',
      '99.28 %',
      '90 g',
      '19 Nov 2026 08:00',
      '19 Nov 2026 13:00',
      'the scope has not changed',
      'can rewrite everything and seal that, and it verifies',
    ]) {
      expect(text).toContain(said);
    }
    expect(text.replaceAll(' ', '')).toContain(body.scopeHash);
  });

  it('bear the caution, the seal and the page, and name the time zone once, with no offset at any time', () => {
    pages.forEach((page, i) => {
      expect(page.text).toContain('validated by a competent person; your local food-safety authority’s rules come first');
      expect(page.text).toContain(`page ${i + 1} of ${pages.length}`);
      expect(page.text).toMatch(/sealed 25 Nov 2026 14:00, code [0-9A-Z]{4}-[0-9A-Z]{4}/);
    });
    expect([...whole().matchAll(/\d{1,2} Nov 2026 \d\d:\d\d/g)].length).toBeGreaterThan(30);
    expect(whole()).not.toMatch(/\d\d:\d\d ?[+-]\d\d:\d\d/);
    expect([...whole().matchAll(/Europe\/London/g)]).toHaveLength(1);
  });

  it('lose no character without a trace, and run over no margin', () => {
    expect(whole()).toContain('rang about ◊◊ lot A77');
    expect(pages.every((p) => p.text.includes('◊ stands for a character that this paper’s typefaces do not have'))).toBe(true);
    const over = pages.flatMap((p) => p.items.filter((i) => i.upright && i.text.trim() !== '' && i.x + i.width > p.width - 30));
    expect(over).toEqual([]);
  });

  it('are marked on every page where it is a practice, and nowhere where it is not', async () => {
    const marked = await pdf(practice);
    expect(marked.length).toBeGreaterThan(3);
    for (const page of marked) {
      expect(page.text).toContain(band);
      expect(page.items.some((i) => !i.upright && i.text.includes('PRACTICE'))).toBe(true);
    }
    expect(whole()).not.toContain('PRACTICE');
  });
});

describe('the papers of a recall, to type', () => {
  let sheets: Map<string, ReadSheet>;
  beforeAll(async () => {
    const { bytes, headers } = await fileFrom(lead, `/recalls/${real}/papers/recall.xlsx`);
    expect(headers['content-disposition']).toBe(`attachment; filename="recall-${real}.xlsx"`);
    sheets = new Map(sheetsOf(bytes).map((s) => [s.name, s]));
  });
  const column = (sheet: string, title: string) => {
    const found = sheets.get(sheet);
    const at = found?.head.indexOf(title) ?? -1;
    expect([sheet, title, at >= 0]).toEqual([sheet, title, true]);
    return (found?.rows ?? []).map((r) => r[at] ?? { type: 'empty', value: null });
  };

  it('have one row of heads that stays in sight', () => {
    expect([...sheets.keys()]).toEqual(['About', 'Contact list', 'Lots', 'Used and dispatched', 'Nobody can name', 'Balances', 'Flows']);
    for (const s of sheets.values()) expect([s.name, s.frozenRows, new Set(s.head).size]).toEqual([s.name, 1, s.head.length]);
  });

  it('hold numbers as numbers and dates as dates', () => {
    const order = column('Contact list', 'Calling order');
    expect(order.map((c) => [c.type, c.value])).toEqual([1, 2, 3, 4, 5, 6].map((n) => ['number', n]));
    expect(
      column('Contact list', 'Name')
        .slice(0, 2)
        .map((c) => c.value),
    ).toEqual(['Food bank', 'Primary school']);
    const shipped = column('Used and dispatched', 'Shipped');
    expect(shipped.every((c) => c.type === 'date')).toBe(true);
    expect(shipped.map((c) => wallOf(Number(c.value)))).toContain('2026-11-21T08:01');
    expect(column('Used and dispatched', 'Quantity').every((c) => c.type === 'number')).toBe(true);
    expect(column('Balances', 'Accounted for').map((c) => [c.type, c.value])).toEqual([['number', 0.9928]]);
    expect(column('Balances', 'Unaccounted').map((c) => c.value)).toEqual([90]);
  });

  it('hold the data elements of 21 CFR 1 subpart S under plain names', () => {
    const elements: Readonly<Record<string, readonly string[]>> = {
      // 1.1345 receiving, 1.1340 shipping, 1.1350 transformation
      Lots: [
        'Traceability lot code',
        'Quantity',
        'Unit',
        'Product description',
        'Immediate previous source',
        'Location received or made',
        'Received or made',
        'Reference document: delivery note',
      ],
      'Used and dispatched': [
        'Traceability lot code',
        'Quantity',
        'Unit',
        'Product description',
        'Immediate next recipient',
        'Location shipped from',
        'Shipped',
        'Reference document: record',
      ],
      Flows: [
        'Traceability lot code used',
        'Product description used',
        'Quantity used',
        'Unit',
        'New traceability lot code',
        'Location transformed',
        'Transformed',
        'New product description',
        'Reference document: record',
      ],
    };
    for (const [sheet, titles] of Object.entries(elements)) expect(sheets.get(sheet)?.head).toEqual(expect.arrayContaining([...titles]));
    const almond = sheets
      .get('Lots')
      ?.rows.find((r) => r[0]?.value === 'A77')
      ?.map((c) => c.value);
    expect(almond).toEqual(expect.arrayContaining(['ground almond', 'Nut importer', 'N 88', 12_500, 'g']));
    expect(column('Flows', 'Quantity used').filter((c) => c.value === 1000)).toHaveLength(7);
  });

  it('say on every sheet where it is a practice', async () => {
    const marked = sheetsOf((await fileFrom(lead, `/recalls/${practice}/papers/recall.xlsx`)).bytes);
    expect(marked.map((s) => s.name.startsWith('PRACTICE '))).toEqual(marked.map(() => true));
  });
});

describe('the papers of a recall, for another computer', () => {
  it('are the case, with the schema that they fit and the seals that they stand under', async () => {
    const { body } = await lead.get(`/recalls/${practice}/papers/recall.json`).expect(200);
    const paper = recallPaper.parse(body);
    expect(paper).toMatchObject({ paper: 'recall', practice: true, recall: { id: practice, practice: true } });
    const { schema, ...rest } = paper;
    expect(addFormats.default(new Ajv2020({ strict: false })).validate(schema, { ...rest, schema })).toBe(true);
    const frozen = new Map(paper.recall.frozenAt.map((f) => [f.book, f.size]));
    expect(new Map(paper.frozenUnder.map((s) => [s.book, s.size]))).toEqual(frozen);
    expect(paper.recordedUnder.size).toBeGreaterThan(frozen.get(paper.recordedUnder.book) ?? Infinity);
  });
});

describe('who may have the papers of a recall', () => {
  const path = (): string => `/recalls/${real}/papers/recall.json`;
  const inspector = async (from: string, until: string | null): Promise<Caller> => {
    const { person, pin } = await b.house.join('Ina Spector', []);
    await b.house.decide({ kind: 'access-given', payload: { person, sites: [b.site], from, until, expires: '2026-11-27T00:00:00Z' } });
    return signOn(t, b.house.organisation, person, pin);
  };

  it('are those who may export, not bakers or viewers; and nobody of another organisation', async () => {
    await (await b.house.signedOn('Lou Ker', ['viewer'])).get(path()).expect(403);
    await b.baker.caller.get(path()).expect(403);
    const other = await Bakehouse.found(t);
    await other.lead.caller.get(path()).expect(422);
  });

  it('is an inspector for whose days the case was opened, and it is noted that they took it', async () => {
    await (await inspector('2026-11-01', '2026-11-24')).get(path()).expect(403);
    const allowed = await inspector('2026-11-20', null);
    await allowed.get(path()).expect(200);
    const { rows } = await connected(t.database.ownerUrl, (owner) =>
      owner.query('SELECT what, exported FROM viewing WHERE person = $1', [allowed.person]),
    );
    expect(rows).toEqual([{ what: 'the papers of a recall case, as JSON', exported: true }]);
  });
});

describe('the contact list, on the screen', () => {
  const ring = async (who: Caller) => (await who.get(`/recalls/${real}`).expect(200)).body.trace;

  it('has its numbers for those who record and may have to call', async () => {
    const { contactsShown, contacts: list } = await ring(await b.house.signedOn('Bea Kerr', ['baker']));
    expect(contactsShown).toBe(true);
    expect(list.every((e: { phone: string | null }) => e.phone !== null)).toBe(true);
  });

  it('has no numbers for a viewer, and says so', async () => {
    const looks = await b.house.signedOn('Lou Kerr', ['viewer']);
    for (const { contactsShown, contacts: list } of [await ring(looks), (await looks.get(`/lots/${week.almond}/trace`).expect(200)).body]) {
      expect(contactsShown).toBe(false);
      expect(list.length).toBeGreaterThan(0);
      expect(list.filter((e: { phone: string | null; contactName: string | null }) => e.phone !== null || e.contactName !== null)).toEqual(
        [],
      );
    }
  });
});
