/// <reference path="./pdfmake.d.ts" />
import pdfmake from 'pdfmake';
import fonts from 'pdfmake/fonts/Roboto.js';
import type { Content } from './content.js';

/** What the drawing thread is given: plain data. `page` and `pages` name the signs in header and footer that the numbers are put in for. */
export interface Drawing {
  readonly definition: object;
  readonly header: Content;
  readonly footer: Content;
  readonly signs: { readonly page: string; readonly pages: string };
}

pdfmake.setFonts(fonts);
pdfmake.setUrlAccessPolicy(() => false);
pdfmake.setLocalAccessPolicy((file) => Object.values(fonts.Roboto).includes(file));
const thin = (): number => 0.5;
const padding = { paddingLeft: () => 3, paddingRight: () => 5, paddingTop: () => 2, paddingBottom: () => 2 };
const roomy = { paddingLeft: () => 8, paddingRight: () => 8, paddingTop: () => 5, paddingBottom: () => 5 };
pdfmake.setTableLayouts({
  ruled: {
    ...padding,
    hLineWidth: thin,
    vLineWidth: () => 0,
    hLineColor: () => '#888888',
    fillColor: (row: number, node: { table: { headerRows?: number } }) => (row < (node.table.headerRows ?? 0) ? '#e6e6e6' : null),
  },
  boxed: { ...roomy, hLineWidth: () => 1.2, vLineWidth: () => 1.2 },
  band: { ...roomy, hLineWidth: () => 0, vLineWidth: () => 0, fillColor: () => '#000000' },
});

/** Draws a PDF. It runs in a thread of its own: a thousand rows take about a second, and the tablets must not wait for them. */
export async function drawPdf({ definition, header, footer, signs }: Drawing): Promise<Uint8Array> {
  const numbered = (content: Content, page: number, pages: number): unknown =>
    JSON.parse(JSON.stringify(content).replaceAll(signs.page, String(page)).replaceAll(signs.pages, String(pages)));
  const whole = {
    ...definition,
    header: (page: number, pages: number) => numbered(header, page, pages),
    footer: (page: number, pages: number) => numbered(footer, page, pages),
    // a heading at the foot of a page goes over with what it is the heading of; one that stands on top already stays
    pageBreakBefore: ({ headlineLevel, startPosition: at }: { headlineLevel?: number; startPosition: { verticalRatio: number } }) =>
      headlineLevel === 1 && at.verticalRatio > 0.82,
  };
  return new Uint8Array(await pdfmake.createPdf(whole).getBuffer());
}
