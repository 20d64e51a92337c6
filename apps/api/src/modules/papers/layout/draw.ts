import { Worker } from 'node:worker_threads';
import { markAll, markOfUnprintable, printableCharacters } from './glyphs.js';
import { definitionOf, type Paper } from './page.js';
import { drawPdf } from './pdf-worker.js';

let before: Promise<unknown> = Promise.resolve();

/**
 * A paper as PDF. One is drawn at a time, in a thread of its own. What the typeface cannot show is marked, and the paper says so.
 * Throws where the drawing fails.
 */
export async function pdfOf(paper: Paper): Promise<Buffer> {
  const { content, marked } = markAll(paper, await printableCharacters());
  const drawing = definitionOf(
    content,
    marked === 0
      ? null
      : `${markOfUnprintable} stands for a character that this paper’s typeface does not have (${marked} on this paper). The same records on screen, as a table and as JSON have it.`,
  );
  const drawn = before.then(() => draw({ modules: import.meta.url, ...drawing }));
  before = drawn.catch(() => undefined);
  return drawn;
}

function draw(workerData: object): Promise<Buffer> {
  return new Promise((resolve, reject) => {
    const worker = new Worker(`(${drawPdf.toString()})()`, { eval: true, workerData, resourceLimits: { maxOldGenerationSizeMb: 1024 } });
    worker.once('message', (pdf: Uint8Array) => resolve(Buffer.from(pdf.buffer, pdf.byteOffset, pdf.byteLength)));
    worker.once('error', reject);
    worker.once('exit', () => reject(new Error('the paper was not drawn')));
  });
}
