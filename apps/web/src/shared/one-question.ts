/** Questions that several parts of a page ask at once are one question: who waits meanwhile gets the same answer. */
export function oneQuestion<T>(): (ask: () => Promise<T>) => Promise<T> {
  let open: Promise<T> | undefined;
  return (ask) => {
    open ??= ask().finally(() => (open = undefined));
    return open;
  };
}
