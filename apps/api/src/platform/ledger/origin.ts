/** Whose seal it is. The first line of each note, and the name of the key as its readers know it. */
export const originOf = (book: string): string => `bakehouse-ledger.example/book/${book}`;
