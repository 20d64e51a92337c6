import type { Content, Node } from './content.js';

export interface Masthead {
  /** Whose paper. */
  readonly house: string;
  /** A site of it, where the paper is of one. */
  readonly site: string | null;
  readonly title: string;
  readonly line: Content;
  readonly seal: { readonly at: string; readonly code: string; readonly beside: string };
}

/** The head of a paper: whose it is and what, the seal that it was made under, and the house's stamp. A second paper in one file begins a page. */
export const masthead = ({ house, site, title, line, seal }: Masthead, of: Pick<Node, 'pageBreak' | 'pageOrientation'> = {}): Node => ({
  ...of,
  table: {
    widths: ['*', 112, 46],
    body: [
      [
        {
          stack: [
            { text: site === null ? house : `${house}, ${site}`, style: 'value' },
            { text: title, style: 'title', margin: [0, 3, 0, 3] },
            { text: line, style: 'subtitle' },
          ],
        },
        {
          stack: [
            { text: `Sealed ${seal.at}`, style: 'cell' },
            { text: seal.code, style: 'sealCode', margin: [0, 2, 0, 1] },
            { text: seal.beside, style: 'cell' },
          ],
          alignment: 'right',
        },
        { stamp: house, width: 46 },
      ],
    ],
  },
  layout: 'masthead',
  margin: [0, 0, 0, 8],
});
