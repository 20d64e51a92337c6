/** The house's bread stamp on a field of 96 by 96: a ring that three cuts of unequal length break open; the initials stand on 46, 63. Bread stamps once said who baked it. */
export const stampDrawing = {
  ring: 'M83.8 37A37.5 37.5 0 1 1 58.5 12',
  cuts: 'M56 20.5q8.6-3 13.4-11.4Q60.7 12 56 20.5zM61.5 30q15.3-5.6 26-19Q72.5 16 61.5 30zM75 35.5q9-2.3 14.8-9.9Q80.7 27.5 75 35.5z',
} as const;

/** The first letters of the first two words that begin with one. */
export function initials(name: string): string {
  const words = name.match(/\p{L}[\p{L}’'-]*/gu) ?? [];
  return words
    .filter((word) => word.toLowerCase() !== 'the')
    .slice(0, 2)
    .map((word) => [...word][0]?.toUpperCase() ?? '')
    .join('');
}
