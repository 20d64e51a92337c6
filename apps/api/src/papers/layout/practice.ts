import type { Node } from './content.js';

/** White on black across the head of every page of a practice: it survives a poor copier and does not depend on colour. */
export const practiceBand = (text: string): Node => ({
  table: { widths: ['*'], body: [[{ text, style: 'practice', color: '#ffffff', alignment: 'center' }]] },
  layout: 'band',
});

export const practiceWatermark = { text: 'PRACTICE', color: '#000000', opacity: 0.06, bold: true, angle: -45, fontSize: 110 } as const;
