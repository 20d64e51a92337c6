import type { PaperSize } from '@bakehouse/contracts';
import type { Content, Node } from './content.js';
import { pageSizes, side } from './paper-size.js';

/** The space left and right of a cell's text, in a ruled table. */
const between = 8;
/** What a column without a width of its own has at least. */
const least = 70;

/** The same body with the columns of its tables narrowed where a page is too narrow for them, each by the same share. */
export function fitted(body: readonly Content[], size: PaperSize): readonly Content[] {
  let width = widthOf(size, 'portrait');
  return body.map((content) => {
    if (typeof content === 'string' || isList(content)) return content;
    if (content.pageOrientation !== undefined) width = widthOf(size, content.pageOrientation);
    return fittedNode(content, width);
  });
}

function widthOf(size: PaperSize, orientation: 'portrait' | 'landscape'): number {
  const { width, height } = pageSizes[size];
  return (orientation === 'portrait' ? width : height) - side.punched - side.other;
}

const isList = (content: Content): content is readonly Content[] => Array.isArray(content);

function fittedNode(node: Node, width: number): Node {
  if (node.stack) return { ...node, stack: node.stack.map((c) => (typeof c === 'string' || isList(c) ? c : fittedNode(c, width))) };
  const { table } = node;
  if (!table || node.layout !== 'ruled') return node;
  const fixed = table.widths.reduce<number>((sum, w) => sum + (typeof w === 'number' ? w : 0), 0);
  const open = table.widths.filter((w) => typeof w !== 'number').length;
  const share = (width - table.widths.length * between - open * least) / fixed;
  if (fixed === 0 || share >= 1) return node;
  return { ...node, table: { ...table, widths: table.widths.map((w) => (typeof w === 'number' ? Math.floor(w * share) : w)) } };
}
