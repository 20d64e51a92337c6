import pg from 'pg';
import * as z from 'zod';

const queryText = z.object({ text: z.string() });

/** How many queries the service's connections send while something is done. */
export const queriesDuring = async (work: () => Promise<unknown>): Promise<number> => (await sentDuring(work)).length;

/** The same without what opens and ends a transaction: what is really asked. */
export const statementsDuring = async (work: () => Promise<unknown>): Promise<readonly string[]> =>
  (await sentDuring(work)).filter((text) => !/^(BEGIN|COMMIT|ROLLBACK)\b/.test(text));

async function sentDuring(work: () => Promise<unknown>): Promise<readonly string[]> {
  const original = pg.Client.prototype.query;
  const sent: string[] = [];
  pg.Client.prototype.query = function counted(this: pg.Client, ...args: Parameters<typeof original>) {
    const [asked]: readonly unknown[] = args;
    sent.push(typeof asked === 'string' ? asked : queryText.parse(asked).text);
    return Reflect.apply(original, this, args);
  } as typeof original; // it has the original's overloads, all of which take what it passes on
  try {
    await work();
  } finally {
    pg.Client.prototype.query = original;
  }
  return sent;
}
