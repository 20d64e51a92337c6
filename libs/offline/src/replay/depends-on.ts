/**
 * The pending entries that something about to be saved builds on: those whose id, or a row that they make, stands anywhere in its payload or is
 * what it corrects. The other side then says "waiting" instead of refusing it when it arrives first.
 */
export function dependsOn(payload: unknown, corrects: string | undefined, madeBy: ReadonlyMap<string, string>): string[] {
  const found = new Set<string>();
  const look = (value: unknown): void => {
    if (typeof value === 'string') {
      const entry = madeBy.get(value);
      if (entry !== undefined) found.add(entry);
    } else if (typeof value === 'object' && value !== null) Object.values(value).forEach(look);
  };
  look(payload);
  look(corrects);
  return [...found].slice(-mostNamed);
}

/** As many as an envelope may name; sent in order, the last ones say enough. */
const mostNamed = 20;
