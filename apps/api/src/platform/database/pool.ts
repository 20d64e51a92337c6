import pg from 'pg';
import { valueTypes } from './types.js';

/** Connections as the service's role, with our value types. A connection lost while idle is replaced at the next use. */
export function servicePool(url: string, max: number): pg.Pool {
  const pool = new pg.Pool({
    connectionString: url,
    max,
    application_name: 'bakehouse-ledger',
    types: valueTypes,
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
