import { Inject, Injectable } from '@nestjs/common';
import pg from 'pg';
import { SERVICE_POOL } from './tokens.js';

const uuid = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/i;

/** A transaction that sees one organisation. */
export type Transaction = pg.PoolClient;

/** Opens transactions that see one organisation's rows and no others. */
@Injectable()
export class Tenancy {
  constructor(@Inject(SERVICE_POOL) private readonly pool: pg.Pool) {}

  /** Runs `work` in one transaction for the organisation; it is rolled back when `work` throws. */
  inOrganisation<T>(organisation: string, work: (client: pg.PoolClient) => Promise<T>): Promise<T> {
    return this.transaction('BEGIN', organisation, work);
  }

  /** The same to read only: everything is seen as of one moment, and nothing can be written. */
  reading<T>(organisation: string, work: (client: pg.PoolClient) => Promise<T>): Promise<T> {
    return this.transaction('BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY', organisation, work);
  }

  /** Asks to read only, in one round trip: `ask` sends everything before it first waits, and the end of the transaction goes out behind it. */
  async inOneTrip<T>(organisation: string, ask: (client: pg.PoolClient) => Promise<T>): Promise<T> {
    const begin = beginning('BEGIN READ ONLY', organisation);
    const client = await this.pool.connect();
    const [begun, asked, ended] = await Promise.allSettled([client.query(begin), ask(client), client.query('COMMIT')]);
    client.release(ended.status === 'rejected');
    if (begun.status === 'rejected') throw begun.reason;
    if (asked.status === 'rejected') throw asked.reason;
    return asked.value;
  }

  /** Asks before it is known whose house it is: no organisation is set, so nothing behind the fence is seen. */
  async outside<T>(work: (client: pg.PoolClient) => Promise<T>): Promise<T> {
    const client = await this.pool.connect();
    try {
      return await work(client);
    } finally {
      client.release();
    }
  }

  private async transaction<T>(begin: string, organisation: string, work: (client: pg.PoolClient) => Promise<T>): Promise<T> {
    const beginsWith = beginning(begin, organisation);
    const client = await this.pool.connect();
    let broken: Error | undefined;
    try {
      // Not waited for: what `work` asks first goes out behind it in the same round trip.
      const begun = client.query(beginsWith);
      const [result] = await Promise.all([work(client), begun]);
      await client.query('COMMIT');
      return result;
    } catch (error) {
      await client.query('ROLLBACK').catch((lost: Error) => {
        broken = lost;
      });
      throw error;
    } finally {
      client.release(broken);
    }
  }
}

/** One text, since a text with parameters would be a round trip of its own. */
function beginning(begin: string, organisation: string): string {
  if (!uuid.test(organisation)) throw new RangeError('an organisation is named by its id');
  return `${begin}; SELECT set_config('app.organisation', '${organisation}', true)`;
}
