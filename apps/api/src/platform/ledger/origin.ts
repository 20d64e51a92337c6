/** Whose seal it is. The first line of each note, and the name of the key as its readers know it. */
export const originOf = (book: string): string => `bakehouse-ledger.example/book/${book}`;

/** A line of a kept seal: the seal that was kept before it, by its size. So a seal that is gone is told by the next one. */
export const afterSeal = (size: number): string => `after-seal ${size}`;
/** The size that such a line of these names. */
export const sealBefore = (extensions: readonly string[] = []): number | undefined =>
  extensions
    .map((line) => /^after-seal (0|[1-9][0-9]{0,14})$/.exec(line)?.[1])
    .flatMap((size) => (size === undefined ? [] : Number(size)))[0];
