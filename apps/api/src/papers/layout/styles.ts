import type { Family } from './families.js';

/** The body is 9.5 points; a telephone number is read across a desk. Nothing is coloured: a paper is copied. */
export const styles = {
  title: { font: 'Head', fontSize: 24, bold: true, lineHeight: 1 },
  subtitle: { fontSize: 10.5 },
  heading: { font: 'Head', fontSize: 13, bold: true, margin: [0, 10, 0, 3] },
  figure: { font: 'Head', fontSize: 13, bold: true },
  big: { font: 'Head', fontSize: 17, bold: true },
  body: { fontSize: 9.5 },
  loud: { font: 'Head', fontSize: 13.5, bold: true, margin: [0, 0, 0, 4] },
  who: { font: 'Head', fontSize: 11.5, bold: true },
  phone: { fontSize: 16, bold: true },
  step: { fontSize: 10, margin: [0, 1, 0, 1] },
  small: { fontSize: 8.5, margin: [0, 0, 0, 4] },
  nothing: { fontSize: 9.5, margin: [0, 2, 0, 8] },
  name: { fontSize: 9.5 },
  value: { fontSize: 9.5, bold: true },
  head: { fontSize: 8.5, bold: true },
  cell: { fontSize: 8.5 },
  code: { font: 'Code', fontSize: 8.5, bold: true },
  sealCode: { font: 'Code', fontSize: 13, bold: true },
  strong: { bold: true },
  practice: { font: 'Head', fontSize: 14, bold: true },
  edge: { fontSize: 8 },
} as const;

type Style = keyof typeof styles;
const isStyle = (name: string): name is Style => name in styles;

/** The family that a node's styles set; the last one that sets any, as the printing reads them. */
export function familyOfStyle(style: string | readonly string[] | undefined): Family | undefined {
  const names = style === undefined ? [] : typeof style === 'string' ? [style] : style;
  return names
    .filter(isStyle)
    .map((name) => styles[name])
    .flatMap((of): Family[] => ('font' in of ? [of.font] : []))
    .at(-1);
}
