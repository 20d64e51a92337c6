import type { Content } from './content.js';
import { practiceBand, practiceWatermark } from './practice.js';
import type { Drawing } from './pdf-worker.js';

/** A paper before it is drawn. */
export interface Paper {
  readonly title: string;
  /** At the head of every page: whose paper, and what it is. */
  readonly head: { readonly left: string; readonly right: string };
  /** At the foot of every page: the seal, and when it was printed. */
  readonly foot: { readonly seal: string; readonly printed: string };
  readonly caution: string;
  /** Set for an exercise: marked so on every page. */
  readonly practice: string | null;
  readonly landscape: boolean;
  readonly printedAt: Date;
  readonly body: readonly Content[];
}

/** Private-use signs: text from people never holds them, they were marked as unprintable before. */
const signs = { page: '\ue000', pages: '\ue001' };
const side = 36;

/** The document as it is handed to the drawing thread. `note` says what could not be printed. */
export function definitionOf(paper: Paper, note: string | null): Drawing {
  const { title, head, foot, caution, practice, landscape, printedAt } = paper;
  return {
    signs,
    header: [
      ...(practice === null ? [] : [practiceBand(practice)]),
      {
        columns: [
          { text: head.left, style: 'edge', bold: true, width: '*' },
          { text: head.right, style: 'edge', alignment: 'right', width: 'auto' },
        ],
        columnGap: 8,
        margin: [side, 14, side, 0],
      },
    ],
    footer: {
      margin: [side, 6, side, 0],
      stack: [
        {
          columns: [
            { text: foot.seal, style: 'edge' },
            { text: `${foot.printed} · page ${signs.page} of ${signs.pages}`, style: 'edge', alignment: 'right', width: 'auto' },
          ],
          columnGap: 8,
        },
        { text: caution, style: 'edge', italics: true },
        ...(note === null ? [] : [{ text: note, style: 'edge' }]),
      ],
    },
    definition: {
      pageSize: 'A4',
      pageOrientation: landscape ? 'landscape' : 'portrait',
      pageMargins: [side, practice === null ? 46 : 74, side, 62],
      content: paper.body,
      styles,
      defaultStyle: { font: 'Roboto', fontSize: 9, lineHeight: 1.1 },
      language: 'en',
      displayTitle: true,
      info: { title, creationDate: printedAt, creator: 'Bakehouse Ledger', producer: 'Bakehouse Ledger' },
      ...(practice === null ? {} : { watermark: practiceWatermark }),
    },
  };
}

const styles = {
  title: { fontSize: 20, bold: true, color: '#a00000', margin: [0, 0, 0, 2] },
  subtitle: { fontSize: 12, bold: true, margin: [0, 0, 0, 6] },
  heading: { fontSize: 12, bold: true, margin: [0, 10, 0, 3] },
  body: { fontSize: 9.5 },
  loud: { fontSize: 12, bold: true, margin: [0, 0, 0, 3] },
  step: { fontSize: 10, margin: [0, 1, 0, 1] },
  small: { fontSize: 8, margin: [0, 0, 0, 4] },
  nothing: { fontSize: 9, italics: true, margin: [0, 2, 0, 8] },
  name: { fontSize: 9, bold: true },
  head: { fontSize: 8, bold: true },
  cell: { fontSize: 8 },
  strong: { bold: true },
  edge: { fontSize: 7.5, color: '#333333' },
} as const;
