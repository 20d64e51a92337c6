import type * as z from 'zod';
import type { Database } from './database.js';

/** Small things that a device remembers between two starts, each by a name: the last snapshot, the people to tap, how wrong its clock was. */
export class Kept {
  constructor(private readonly database: Database) {}

  /** What was kept under a name; null where nothing was, or where it is not of the form that is asked for. */
  async get<S extends z.ZodType>(name: string, schema: S): Promise<z.output<S> | null> {
    return schema.safeParse(await this.database.get('kept', name)).data ?? null;
  }

  async put(name: string, value: unknown): Promise<void> {
    await this.database.put('kept', value, name);
  }
}
