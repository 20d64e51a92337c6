import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { sectionTitles } from '../../apps/api/src/papers/inspection/sections.js';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { Bakehouse } from '../support/bakehouse.js';
import { nutsWeek } from '../support/nuts-week.js';
import { fileFrom, pagesOf, type Page } from '../support/read-papers.js';

const clock = new SettableClock('2026-11-25T14:00:00Z');
let t: TestApp;
let b: Bakehouse;
let recall: string;
let contacts: readonly { readonly name: string; readonly phone: string; readonly contactName: string }[];
beforeAll(async () => {
  t = await startTestApp({ clock });
  b = await Bakehouse.found(t);
  const { almond } = await nutsWeek(b);
  recall = b.newId();
  const hazardName = 'Сальмонела, σαλμονέλα, salmonelloză, żółć';
  const body = { id: recall, suspect: [almond], hazard: 'microbiological', hazardName, practice: false, said: 'Garden café rang' };
  await b.lead.caller.post('/recalls', body).expect(200);
  contacts = (await b.lead.caller.get(`/recalls/${recall}`).expect(200)).body.trace.contacts;
});
afterAll(() => t.close());

const read = async (path: string): Promise<{ readonly bytes: Buffer; readonly pages: Page[]; readonly text: string }> => {
  const { bytes } = await fileFrom(b.lead.caller, path);
  const pages = await pagesOf(bytes);
  return { bytes, pages, text: pages.map((p) => p.text).join(' ') };
};
const paper = (name: string) => read(`/recalls/${recall}/papers/${name}`);

describe('the papers of a recall, apart', () => {
  it('are a notice that names no customer, nor their telephone, nor what somebody said on it', async () => {
    const { text } = await paper('notice.pdf');
    expect(text).toContain('URGENT: FOOD RECALL');
    expect(text).toContain('25-tartlet');
    expect(contacts.length).toBeGreaterThan(4);
    const told = contacts.flatMap((c) => [c.name, c.phone, c.contactName]).filter((words) => text.includes(words));
    expect(told).toEqual([]);
    expect(text).not.toMatch(/\d{5} \d{6}/);
    expect(text).not.toContain('Lots in scope');
  });

  it('are a contact list with everybody on it, whom no telephone reaches, and nothing of the rest', async () => {
    const { text, pages } = await paper('contacts.pdf');
    for (const { name, phone } of contacts) expect([text.includes(name), text.includes(phone)]).toEqual([true, true]);
    expect(pages[0]?.text).toContain('Contact list');
    expect(text).toMatch(/Sold at the counter: \d+ pieces, certain/);
    expect(text).not.toContain('Balances that do not add up');
  });

  it('are ordered apart, too, and a part that there is not is refused', async () => {
    await b.lead.caller.get(`/recalls/${recall}/papers/order?part=notice`).expect(202);
    await b.lead.caller.get(`/recalls/${recall}/papers/order?part=telephones`).expect(400);
  });

  it('hold the house’s typefaces in the file, and one with the letters that those lack', async () => {
    const { bytes, text } = await paper('recall.pdf');
    const file = bytes.toString('latin1');
    const embedded = [...file.matchAll(/\/FontName \/[A-Z]{6}\+([A-Za-z]+)-/g)].map(([, name]) => name);
    expect(new Set(embedded)).toEqual(new Set(['BricolageGrotesque', 'AtkinsonHyperlegibleNext', 'AtkinsonHyperlegibleMono', 'Roboto']));
    expect([...file.matchAll(/\/FontFile2 /g)]).toHaveLength(embedded.length);
    expect(text).toContain('Сальмонела, σαλμονέλα, salmonelloză, żółć');
    expect(text).not.toContain('◊');
  });

  it('are printed on the sheets that are asked for, else on those of the zone', async () => {
    expect((await paper('notice.pdf')).pages[0]?.width).toBeCloseTo(595.28, 1); // ISO 216: 210 mm
    expect((await paper('notice.pdf?size=letter')).pages[0]?.width).toBe(612); // 8.5 in
  });
});

describe('the pack', () => {
  it.each(['a4', 'letter'])('names in its contents, on %s, the page on which each section begins', async (size) => {
    const { pages } = await read(`/sites/${b.site}/inspection/pack.pdf?from=2026-11-19&until=2026-11-25&size=${size}`);
    const [first] = pages;
    const list = first?.text.slice(first.text.indexOf('In this pack')) ?? '';
    const begins = (title: string): number =>
      pages.findIndex((p, i) => i > 0 && p.items.some((item) => item.text === title || item.text.startsWith(`${title}:`))) + 1;
    const titles = Object.values(sectionTitles);
    const named = titles.map((title) => [title, Number(list.split(`${title} `)[1]?.match(/^\d+/)?.[0])]);
    expect(named).toEqual(titles.map((title) => [title, begins(title) || 1]));
    expect(named.at(-1)?.[1]).toBeGreaterThan(3);
    expect(first?.text).toMatch(/What needs attention.*For the officer’s use/);
  });
});
