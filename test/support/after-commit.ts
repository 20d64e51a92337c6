import pg from 'pg';

/** Does something once, after the next transaction that changed a table is committed and before its committer goes on. */
export function afterCommitOf(table: string, something: () => Promise<unknown>): void {
  const original = pg.Client.prototype.query;
  const changing = new WeakSet<pg.Client>();
  pg.Client.prototype.query = function watched(this: pg.Client, ...args: Parameters<typeof original>) {
    const [asked]: readonly unknown[] = args;
    const text = typeof asked === 'object' && asked !== null && 'text' in asked ? asked.text : asked;
    if (typeof text === 'string' && text.startsWith(`UPDATE ${table} `)) changing.add(this);
    const answer: unknown = Reflect.apply(original, this, args);
    if (text !== 'COMMIT' || !changing.has(this)) return answer;
    pg.Client.prototype.query = original;
    return Promise.resolve(answer).then(async (done) => {
      await something();
      return done;
    });
  } as typeof original; // it has the original's overloads, all of which take what it passes on
}
