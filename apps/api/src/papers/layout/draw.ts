import { Injectable, type OnApplicationShutdown } from '@nestjs/common';
import { Threads } from '../../platform/threads/index.js';
import { markAll, markOfUnprintable, typefaces } from './glyphs.js';
import { definitionOf, type Paper } from './page.js';
import type { Drawing } from './pdf-worker.js';

/** Draws papers in a thread of their own, which ends after the last request has been answered. */
@Injectable()
export class Printer implements OnApplicationShutdown {
  /** A large paper takes a second or two: nobody waits much longer than a minute for the one that is behind all others. */
  private readonly threads = new Threads<Drawing, Uint8Array>({
    module: new URL('./pdf-worker.js', import.meta.url),
    task: 'drawPdf',
    maxWaiting: 32,
    retryAfterSeconds: 15, // about as long as a third of them takes
    limitMs: 120_000,
    memoryMb: 1024,
  });

  /**
   * A paper as PDF. What no typeface here can show is marked, and the paper says so. Throws where the drawing fails.
   * @throws ProblemException where too many papers are waiting already (those are drawn all the same), or it takes too long
   */
  async pdfOf(paper: Paper): Promise<Buffer> {
    const faces = await typefaces();
    const { content, marked } = markAll(paper, faces.any);
    const definition = definitionOf(
      content,
      marked === 0
        ? null
        : `${markOfUnprintable} stands for a character that this paper’s typefaces do not have (${marked} on this paper). The same records on screen, as a table and as JSON have it.`,
      faces,
    );
    const pdf = await this.threads.run(definition);
    return Buffer.from(pdf.buffer, pdf.byteOffset, pdf.byteLength);
  }

  async onApplicationShutdown(): Promise<void> {
    await this.threads.close();
  }
}
