import { sectionTitles } from '../../apps/api/src/papers/inspection/sections.js';
import { deliveries, inspectionView, counterView, openThings, recallPaper, recallView, traceView } from '@bakehouse/contracts';
import { surelyGone, type Snapshot } from '@bakehouse/records';
import { batchesOf, inStock, lookupOf, onHandOf } from '@bakehouse/views';
import { fileFrom, pagesOf, sheetsOf } from './read-papers.js';
import type { Readable } from './readable.js';

const day = '2026-11-25';
const held = (concerns: readonly unknown[]): boolean => concerns.length > 0;
const sorted = (lots: readonly string[]): string[] => [...lots].sort();

/** Lots by their codes, those that something is said of and all that it could be said of. */
export interface Said {
  readonly onHold: readonly string[];
  readonly of: readonly string[];
}
const said = (all: readonly { readonly lot: string; readonly held: boolean }[]): Said => ({
  onHold: sorted(all.filter((l) => l.held).map((l) => l.lot)),
  of: sorted(all.map((l) => l.lot)),
});

/** What a device says from its own rows: of every lot, of what is in stock, of what there is to send out, and of each batch. */
export function saidByRows(rows: Snapshot, now: string, site: string): Record<'all' | 'stock' | 'toSendOut' | 'batches', Said> {
  const lookup = lookupOf(rows, now, 'Europe/London', site);
  const concerns = (lot: string) => lookup.concerns.get(lot) ?? [];
  return {
    all: said(rows.lot.map((l) => ({ lot: l.id, held: held(concerns(l.id)) && !surelyGone(lookup.state, l.id, now) }))),
    stock: said(inStock(lookup).map((l) => ({ lot: l.id, held: l.trouble === 'held-lot-used' }))),
    toSendOut: said(onHandOf(lookup).flatMap((p) => p.lots.map((l) => ({ lot: l.id, held: l.trouble === 'held-lot-used' })))),
    batches: said(
      batchesOf(lookup, day).map(({ id, release: r }) => ({
        lot: id,
        held: r.state === 'on-hold' || (r.state === 'released' && held(r.since)),
      })),
    ),
  };
}

/** What each route says, as somebody who answers for food safety reads it. */
export class SaidByRoutes {
  constructor(
    private readonly b: Readable,
    private readonly recall: string,
  ) {}

  async list(): Promise<string[]> {
    return sorted(openThings.parse(await this.get(`/sites/${this.b.site}/open`)).held.map((h) => h.lot));
  }

  async deliveries(): Promise<Said> {
    const all = deliveries.parse(await this.get(`/sites/${this.b.site}/deliveries`));
    return said(all.flatMap((d) => d.lines.map((l) => ({ lot: l.lot, held: held(l.concerns) }))));
  }

  async officer(): Promise<{ readonly list: string[]; readonly batches: Said }> {
    const page = inspectionView.parse(await this.get(`/sites/${this.b.site}/inspection?from=${day}&until=${day}`));
    return {
      list: sorted(page.checks.onHold.map((h) => h.lot)),
      batches: said(page.batches.map((one) => ({ lot: one.id, held: one.standing === 'on-hold' }))),
    };
  }

  /** The lots in front of customers that must come off, and the products of which any lot is on hold. */
  async counter(): Promise<{ readonly lots: string[]; readonly products: string[] }> {
    const view = counterView.parse(await this.get(`/counter/${this.b.site}`));
    return { lots: sorted(view.held.map((h) => h.lot)), products: sorted(view.products.filter((p) => p.onHold).map((p) => p.product)) };
  }

  async case(): Promise<{ readonly undecided: string[]; readonly inTheHouse: Said; readonly inScope: readonly string[] }> {
    const view = recallView.parse(await this.get(`/recalls/${this.recall}`));
    return {
      undecided: sorted(view.undecided.map((u) => u.lot)),
      inTheHouse: said(view.trace.onHand.map((o) => ({ lot: o.lot, held: held(o.concerns) }))),
      inScope: sorted(view.trace.lots.map((l) => l.id)),
    };
  }

  async lotPage(lot: string): Promise<boolean> {
    const trace = traceView.parse(await this.get(`/lots/${lot}/trace?direction=forward`));
    return trace.onHand.some((o) => o.lot === lot && held(o.concerns));
  }

  private async get(path: string): Promise<unknown> {
    return (await this.b.lead.caller.get(path).expect(200)).body;
  }
}

/** What each paper says to somebody who reads it: the text of the pages, the cells of the sheets. */
export class SaidOnPaper {
  constructor(
    private readonly b: Readable,
    private readonly recall: string,
    /** The lots that have a code, which is how a paper names them. */
    private readonly codes: ReadonlyMap<string, string>,
  ) {}

  /** The notice names every lot of the case that a customer could hold; the table of the house says of each whether it is on hold. */
  async recallPaper(): Promise<{ readonly notice: string[]; readonly inTheHouse: Said; readonly times: number }> {
    const text = await this.text(`/recalls/${this.recall}/papers/recall.pdf`);
    const house = between(text, 'In the house', ['Decided in this case', 'Went to people nobody can name']);
    const rows = this.rowsOf(house);
    return {
      notice: this.codedIn(between(text, 'URGENT', ['still held'])),
      inTheHouse: said(rows.map(({ lot, row }) => ({ lot, held: / on hold( |$)/.test(row) }))),
      times: [...house.matchAll(/ on hold(?= |$)/g)].length,
    };
  }

  async sheets(): Promise<Said> {
    const { bytes } = await fileFrom(this.b.lead.caller, `/recalls/${this.recall}/papers/recall.xlsx`);
    const lots = sheetsOf(bytes).find((s) => s.name === 'Lots');
    const [id, onHold] = ['Lot id', 'On hold'].map((title) => lots?.head.indexOf(title) ?? -1);
    return said((lots?.rows ?? []).map((r) => ({ lot: String(r[id ?? -1]?.value), held: r[onHold ?? -1]?.value === 'yes' })));
  }

  async forAComputer(): Promise<Said> {
    const { body } = await this.b.lead.caller.get(`/recalls/${this.recall}/papers/recall.json`).expect(200);
    return said(recallPaper.parse(body).recall.trace.onHand.map((o) => ({ lot: o.lot, held: held(o.concerns) })));
  }

  /** The pack: the list of what is on hold now, and how each batch stands. */
  async pack(): Promise<{ readonly list: string[]; readonly batches: Said }> {
    const whole = await this.text(`/sites/${this.b.site}/inspection/pack.pdf?from=${day}&until=${day}`);
    const text = whole.slice(whole.indexOf('For the officer’s use')); // what stands before it names the sections
    const batches = this.rowsOf(between(text, sectionTitles.batches, [sectionTitles.goods]));
    return {
      list: this.codedIn(between(text, sectionTitles.onHold, [sectionTitles.held])),
      batches: said(batches.map(({ lot, row }) => ({ lot, held: row.includes('ON HOLD') }))),
    };
  }

  private async text(path: string): Promise<string> {
    const pages = await pagesOf((await fileFrom(this.b.lead.caller, path)).bytes);
    return pages.map((p) => p.text).join(' ');
  }

  private codedIn(text: string): string[] {
    return sorted([...this.codes].flatMap(([lot, code]) => (text.includes(code) ? [lot] : [])));
  }

  /** A row of a table from a lot's code up to the next code. */
  private rowsOf(text: string): { readonly lot: string; readonly row: string }[] {
    const found = [...this.codes].flatMap(([lot, code]) => (text.includes(code) ? [{ lot, from: text.indexOf(code) }] : []));
    const rows = found.sort((x, y) => x.from - y.from);
    return rows.map(({ lot, from }, i) => ({ lot, row: text.slice(from, rows[i + 1]?.from) }));
  }
}

/** From a heading up to the first of those that may follow it. */
function between(text: string, from: string, until: readonly string[]): string {
  const rest = text.slice(text.indexOf(from));
  const ends = until.map((heading) => rest.indexOf(heading)).filter((at) => at > 0);
  if (!text.includes(from) || ends.length === 0) throw new Error(`no section from ${from} to ${until.join(' or ')}`);
  return rest.slice(0, Math.min(...ends));
}
