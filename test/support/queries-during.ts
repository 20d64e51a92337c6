import pg from 'pg';

/** How many queries the service's connections send while something is done. */
export async function queriesDuring(work: () => Promise<unknown>): Promise<number> {
  const original = pg.Client.prototype.query;
  let count = 0;
  pg.Client.prototype.query = function counted(this: pg.Client, ...args: Parameters<typeof original>) {
    count += 1;
    return Reflect.apply(original, this, args);
  } as typeof original; // it has the original's overloads, all of which take what it passes on
  try {
    await work();
  } finally {
    pg.Client.prototype.query = original;
  }
  return count;
}
