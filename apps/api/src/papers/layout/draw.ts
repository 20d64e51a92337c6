import path from 'node:path';
import { Piscina } from 'piscina';
import { ProblemException } from '../../platform/http/index.js';
import { markAll, markOfUnprintable, printableCharacters } from './glyphs.js';
import { definitionOf, type Paper } from './page.js';
import type { Drawing } from './pdf-worker.js';

/** So many papers wait at most. A large one takes a second or two: nobody waits longer than a minute for the one that is behind all others. */
const maxWaiting = 32;
/** About as long as a third of them takes. */
const comeAgainSeconds = '15';

const extension = path.extname(import.meta.url);
/** One paper is drawn at a time, in a thread that ends when nothing was drawn for a while. Run from its source, the thread reads TypeScript. */
const drawing = new Piscina<Drawing, Uint8Array>({
  filename: new URL(`./pdf-worker${extension}`, import.meta.url).href,
  name: 'drawPdf',
  minThreads: 0,
  maxThreads: 1,
  idleTimeout: 30_000,
  resourceLimits: { maxOldGenerationSizeMb: 1024 },
  execArgv: extension === '.ts' ? ['--import', 'tsx'] : [],
});

/**
 * A paper as PDF. What the typeface cannot show is marked, and the paper says so. Throws where the drawing fails.
 * @throws ProblemException where too many papers are waiting already; those are drawn all the same
 */
export async function pdfOf(paper: Paper): Promise<Buffer> {
  const { content, marked } = markAll(paper, await printableCharacters());
  const definition = definitionOf(
    content,
    marked === 0
      ? null
      : `${markOfUnprintable} stands for a character that this paper’s typeface does not have (${marked} on this paper). The same records on screen, as a table and as JSON have it.`,
  );
  if (drawing.queueSize >= maxWaiting) throw new ProblemException('unavailable', { 'retry-after': comeAgainSeconds });
  const pdf = await drawing.run(definition);
  return Buffer.from(pdf.buffer, pdf.byteOffset, pdf.byteLength);
}
