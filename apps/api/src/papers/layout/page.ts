import type { PaperSize } from '@bakehouse/contracts';
import type { Content, Node } from './content.js';
import { inTheirFaces } from './faces.js';
import { fitted } from './fit.js';
import type { Typefaces } from './glyphs.js';
import { practiceBand, practiceWatermark } from './practice.js';
import type { Drawing } from './pdf-worker.js';
import { pageSizes, side } from './paper-size.js';
import { styles } from './styles.js';

/** A paper before it is drawn. */
export interface Paper {
  readonly title: string;
  /** At the head of every page after the first: whose paper, and what it is. The first has a masthead. */
  readonly head: { readonly left: string; readonly right: string };
  /** At the foot of every page: the seal, and when it was printed and by whom. On the first alone: the zone of all its times. */
  readonly foot: { readonly seal: string; readonly printed: string; readonly times: string };
  readonly caution: string;
  /** Set for an exercise: marked so on every page. */
  readonly practice: string | null;
  readonly size: PaperSize;
  readonly printedAt: Date;
  readonly body: readonly Content[];
}

/** Private-use signs: text from people never holds them, they were marked as unprintable before. */
const signs = { page: '\ue000', pages: '\ue001' };

/** The document as it is handed to the drawing thread. `note` says what could not be printed. */
export function definitionOf(paper: Paper, note: string | null, faces: Typefaces): Drawing {
  const { title, practice, size, printedAt } = paper;
  const faced = (content: Content): Content => inTheirFaces(content, faces);
  const band = practice === null ? [] : [practiceBand(practice)];
  return {
    signs,
    first: { header: faced(band), footer: faced(footOf(paper, note, true)) },
    later: { header: faced([...band, runningHead(paper)]), footer: faced(footOf(paper, note, false)) },
    definition: {
      pageSize: pageSizes[size].name,
      pageOrientation: 'portrait',
      pageMargins: [side.punched, practice === null ? 46 : 74, side.other, 68],
      content: faced(fitted(paper.body, size)),
      styles,
      defaultStyle: { font: 'Text', fontSize: 9.5, lineHeight: 1.15 },
      language: 'en',
      displayTitle: true,
      info: { title, creationDate: printedAt, creator: 'Bakehouse Ledger', producer: 'Bakehouse Ledger' },
      ...(practice === null ? {} : { watermark: practiceWatermark }),
    },
  };
}

const runningHead = ({ head }: Paper): Node => ({
  columns: [
    { text: head.left, style: 'edge', bold: true, width: '*' },
    { text: head.right, style: 'edge', alignment: 'right', width: 'auto' },
  ],
  columnGap: 8,
  margin: [side.punched, 20, side.other, 0],
});

const footOf = ({ foot, caution }: Paper, note: string | null, first: boolean): Node => ({
  margin: [side.punched, 6, side.other, 0],
  stack: [
    {
      table: {
        widths: ['*', 'auto'],
        body: [
          [
            { text: `Printed ${foot.printed}${foot.seal === '' ? '' : `, ${foot.seal}`}.`, style: 'edge' },
            { text: `page ${signs.page} of ${signs.pages}`, style: 'edge', bold: true, alignment: 'right' },
          ],
        ],
      },
      layout: 'foot',
    },
    { text: `${first ? `Times: ${foot.times}. ` : ''}${caution}`, style: 'edge' },
    ...(note === null ? [] : [{ text: note, style: 'edge' }]),
  ],
});
