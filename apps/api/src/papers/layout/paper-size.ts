import type { PaperSize } from '@bakehouse/contracts';

/** In points. */
export const pageSizes = {
  a4: { name: 'A4', width: 595.28, height: 841.89 },
  letter: { name: 'LETTER', width: 612, height: 792 },
} as const;

/** 25 mm on the left, where a paper is punched. */
export const side = { punched: 71, other: 36 } as const;

/** What a zone's printers hold, where the one who prints does not say: Letter in the Americas, A4 elsewhere. Where that is wrong (A4 in Brazil), a printer scales by 6 %. */
export const sizeOfZone = (zone: string): PaperSize => (zone.startsWith('America/') || zone === 'Pacific/Honolulu' ? 'letter' : 'a4');
