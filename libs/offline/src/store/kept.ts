import type * as z from 'zod';
import type { Database } from './database.js';

/** Small things that a device remembers between two starts, each by a name: the last snapshot, the people to tap, how wrong its clock was. */
export class Kept {
  constructor(private readonly database: Database) {}

  /** What was kept under a name; null where nothing was, or where it is not of the form that is asked for. */
  async get<S extends z.ZodType>(name: string, schema: S): Promise<z.output<S> | null> {
    return schema.safeParse(await this.database.get('kept', name)).data ?? null;
  }

  /** Puts what `next` makes of what was kept (null where nothing was); nothing else of this device comes between. The same value again is not written. */
  async change<S extends z.ZodType>(name: string, schema: S, next: (was: z.output<S> | null) => z.output<S> | null): Promise<void> {
    const work = this.database.transaction('kept', 'readwrite');
    const was = schema.safeParse(await work.store.get(name)).data ?? null;
    const is = next(was);
    if (is !== was) await work.store.put(is, name);
    await work.done;
  }

  async put(name: string, value: unknown): Promise<void> {
    await this.database.put('kept', value, name);
  }
}
