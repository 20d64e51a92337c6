/** Over the warnings of a version: who signed it with them. */
export const signedWithText = (signedBy: string | null): string =>
  `Low limits, signed all the same${signedBy === null ? '' : ` by ${signedBy}`}`;
