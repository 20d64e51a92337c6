// A PDF's pages, read in a thread of its own: the reader's build for this Node puts its own JSON, arrays and streams in place of the language's, for all that
// runs beside it. The service and its tests have to run on what the language has, which is also many times faster.
import { getDocument, OPS } from 'pdfjs-dist/legacy/build/pdf.mjs';

/**
 * @template T
 * @param {Uint8Array} pdf
 * @param {(page: import('pdfjs-dist').PDFPageProxy) => Promise<T>} read
 */
async function ofEachPage(pdf, read) {
  const document = await getDocument({ data: new Uint8Array(pdf), verbosity: 0 }).promise;
  const pages = [];
  for (let n = 1; n <= document.numPages; n += 1) pages.push(await read(await document.getPage(n)));
  await document.loadingTask.destroy();
  return pages;
}

/** @param {Uint8Array} pdf */
export const pagesOf = (pdf) =>
  ofEachPage(pdf, async (page) => {
    const { items } = await page.getTextContent();
    const found = items.flatMap((i) =>
      'str' in i ? [{ text: i.str, x: Number(i.transform[4]), width: i.width, upright: Number(i.transform[1]) === 0, ends: i.hasEOL }] : [],
    );
    const text = found.map((i) => `${i.text}${i.ends ? ' ' : ''}`).join('');
    return { width: page.view[2] ?? 0, items: found, text: text.replace(/\s+/g, ' ') };
  });

/**
 * What is filled on each page, one rectangle after the other, in points from the page's upper left corner: all that a QR code is drawn of.
 * @param {Uint8Array} pdf
 */
export const filledOf = (pdf) =>
  ofEachPage(pdf, async (page) => {
    const { fnArray, argsArray } = await page.getOperatorList();
    const [, , width, height] = page.view;
    let colour = '';
    const filled = [];
    fnArray.forEach((operation, i) => {
      if (operation === OPS.setFillRGBColor) [colour] = argsArray[i];
      if (operation === OPS.constructPath && argsArray[i][0] === OPS.fill && argsArray[i][2])
        filled.push({ colour, at: [...Object.values(argsArray[i][2])] });
    });
    return { width, height, filled };
  });
