interface Drawn {
  readonly at: string;
  readonly value: number;
  /** Shown whatever else is left out. */
  readonly matters: boolean;
}

/**
 * At most about so many of a series in order of time: of each stretch of as many readings the first, the lowest and the highest, and every one that
 * matters, so that no extreme and nothing outside a limit is lost by drawing less.
 */
export function thinned<T extends Drawn>(all: readonly T[], atMost: number): T[] {
  if (all.length <= atMost) return [...all];
  const inStretch = Math.ceil(all.length / Math.max(1, Math.floor(atMost / 3)));
  const kept: T[] = [];
  for (let from = 0; from < all.length; from += inStretch) {
    const stretch = all.slice(from, from + inStretch);
    const [first] = stretch;
    let [lowest, highest] = [first, first];
    for (const one of stretch) {
      if (lowest === undefined || one.value < lowest.value) lowest = one;
      if (highest === undefined || one.value > highest.value) highest = one;
    }
    kept.push(...stretch.filter((one) => one.matters || one === first || one === lowest || one === highest));
  }
  return kept;
}
