import pg from 'pg';
import { GatheringSocket } from './gathering-socket.js';
import { valueTypes } from './types.js';

/**
 * What is asked is many small look-ups in few statements: to compile one would take a server that can longer than to answer it; and so would to plan it for
 * each asking anew, which takes the longer the more there is, and comes to the same plan, since each step is looked up by its key. A plan that was kept from
 * when a table was empty would read all of it at each step once it is not, until the statistics are made anew: no table is read where there is an index.
 * Said once a connection: said in each transaction, it was a tenth of what a small commit cost the server.
 */
const planning = ['jit=off', 'plan_cache_mode=force_generic_plan', 'enable_seqscan=off'].map((one) => `-c ${one}`).join(' ');

/** Connections as the service's role, with our value types. A connection lost while idle is replaced at the next use. */
export function servicePool(url: string, max: number): pg.Pool {
  const pool = new pg.Pool({
    connectionString: url,
    max,
    application_name: 'bakehouse-ledger',
    types: valueTypes,
    options: planning,
    stream: () => new GatheringSocket(),
    pipeline: true, // queries of one transaction that do not wait for each other share a round trip
    connectionTimeoutMillis: 10_000,
    idleTimeoutMillis: 30_000,
    statement_timeout: 60_000,
    keepAlive: true,
  });
  pool.on('error', () => undefined); // without a listener an idle connection's end would end the process
  pool.on('connect', (client) => {
    client.on('error', () => undefined);
  }); // and so would that of one in use: its queries report it to the caller
  return pool;
}
