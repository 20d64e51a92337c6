interface Call {
  readonly party: string;
  readonly answer: string;
}

/** Who was told of a recall: everybody whom one of these calls told, however many did not reach them before or after. */
export const informedBy = (calls: readonly Call[]): ReadonlySet<string> =>
  new Set(calls.flatMap((c) => (c.answer === 'told' ? c.party : [])));
