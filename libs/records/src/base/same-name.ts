/** A name without what people write now one way, now another: capitals, spaces, the shape of an apostrophe. */
export const plainName = (name: string): string =>
  name
    .normalize('NFKC')
    .toLowerCase()
    .replace(/[’‘`´]/g, "'")
    .replace(/\s+/g, ' ')
    .trim();

export const sameName = (one: string, other: string): boolean => plainName(one) === plainName(other);
