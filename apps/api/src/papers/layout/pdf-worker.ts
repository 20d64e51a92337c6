import type { Content } from './content.js';
import { withTypefaces } from './printing.js';

/** What is at the head and the foot of a page. */
export interface Edges {
  readonly header: Content;
  readonly footer: Content;
}

/** What the drawing thread is given: plain data. `page` and `pages` name the signs in header and footer that the numbers are put in for. */
export interface Drawing {
  readonly definition: object;
  readonly first: Edges;
  readonly later: Edges;
  readonly signs: { readonly page: string; readonly pages: string };
}

const pdfmake = withTypefaces();
const roomy = { paddingLeft: () => 10, paddingRight: () => 10, paddingTop: () => 7, paddingBottom: () => 7 };
const none = (): number => 0;
interface Ruled {
  readonly table: { readonly headerRows?: number; readonly body: readonly unknown[] };
}
pdfmake.setTableLayouts({
  // a hairline below each row, a stronger one below the heads: nothing that a copier turns grey
  ruled: {
    paddingLeft: (column: number) => (column === 0 ? 0 : 4),
    paddingRight: () => 4,
    paddingTop: () => 3,
    paddingBottom: () => 3,
    hLineWidth: (line: number, { table }: Ruled) => (line === 0 ? 0 : line === (table.headerRows ?? 0) ? 0.9 : 0.4),
    vLineWidth: none,
  },
  rows: {
    paddingLeft: none,
    paddingRight: () => 6,
    paddingTop: () => 4,
    paddingBottom: () => 4,
    hLineWidth: () => 0.4,
    vLineWidth: none,
  },
  grid: {
    paddingLeft: () => 3,
    paddingRight: () => 3,
    paddingTop: () => 4,
    paddingBottom: () => 4,
    hLineWidth: (line: number) => (line === 0 ? 0 : 0.6),
    vLineWidth: (line: number) => (line === 0 ? 0 : 0.6),
  },
  tight: {
    paddingLeft: none,
    paddingRight: (column: number) => (column === 0 ? 6 : 4),
    paddingTop: () => 1.5,
    paddingBottom: () => 1.5,
    hLineWidth: () => 0.4,
    vLineWidth: none,
  },
  lines: { paddingLeft: none, paddingRight: () => 4, paddingTop: none, paddingBottom: none, hLineWidth: none, vLineWidth: none },
  plain: { paddingLeft: none, paddingRight: () => 6, paddingTop: () => 1, paddingBottom: () => 1, hLineWidth: none, vLineWidth: none },
  foot: {
    paddingLeft: none,
    paddingRight: none,
    paddingTop: () => 4,
    paddingBottom: none,
    hLineWidth: (line: number) => (line === 0 ? 0.6 : 0),
    vLineWidth: none,
  },
  masthead: {
    paddingLeft: none,
    paddingRight: (column: number) => (column === 2 ? 0 : 10),
    paddingTop: none,
    paddingBottom: () => 8,
    hLineWidth: (line: number) => (line === 0 ? 0 : 0.9),
    vLineWidth: none,
  },
  boxed: { ...roomy, hLineWidth: () => 1, vLineWidth: () => 1 },
  band: { ...roomy, hLineWidth: none, vLineWidth: none, fillColor: () => '#000000' },
});

/** Draws a PDF. It runs in a thread of its own: a thousand rows take about a second, and the tablets must not wait for them. */
export async function drawPdf({ definition, first, later, signs }: Drawing): Promise<Uint8Array> {
  const numbered = (content: Content, page: number, pages: number): unknown =>
    JSON.parse(JSON.stringify(content).replaceAll(signs.page, String(page)).replaceAll(signs.pages, String(pages)));
  const edges = (page: number): Edges => (page === 1 ? first : later);
  const whole = {
    ...definition,
    header: (page: number, pages: number) => numbered(edges(page).header, page, pages),
    footer: (page: number, pages: number) => numbered(edges(page).footer, page, pages),
    // a heading at the foot of a page goes over with what it is the heading of; one that stands on top already stays
    pageBreakBefore: ({ headlineLevel, startPosition: at }: { headlineLevel?: number; startPosition: { verticalRatio: number } }) =>
      headlineLevel === 1 && at.verticalRatio > 0.82,
  };
  return new Uint8Array(await pdfmake.createPdf(whole).getBuffer());
}
