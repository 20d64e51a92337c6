import { randomUUID } from 'node:crypto';
import { expect } from '@jest/globals';
import { permission, type Permission } from '@bakehouse/kernel';
import pg from 'pg';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { servicePool, Tenancy } from '../../apps/api/src/platform/database/index.js';
import { LedgerWriter } from '../../apps/api/src/platform/ledger/ledger-writer.js';
import type { Asker, BookRef, Result } from '../../apps/api/src/platform/ledger/types.js';
import { verifyBytes, verifyForm, verifyProjections } from '../../apps/api/src/platform/ledger/verify.js';
import { createTestDatabase } from './database.js';

/** A business with its two books on a database of its own, and the writer as the service's role. No HTTP. */
export async function startLedger(now = '2026-11-25T12:00:00Z') {
  const database = await createTestDatabase();
  const owner = new pg.Client({ connectionString: database.ownerUrl });
  await owner.connect();
  const pool = servicePool(database.serviceUrl, 4);
  const tenancy = new Tenancy(pool);
  const clock = new SettableClock(now);
  const faults: unknown[] = [];
  const organisation = randomUUID();
  const make = async (type: 'site' | 'organisation'): Promise<BookRef> => {
    const book = { organisation, id: randomUUID(), type, zone: 'Europe/London' };
    await owner.query('INSERT INTO book (organisation, id, type, name, zone) VALUES ($1, $2, $3, $4, $5)', [
      organisation,
      book.id,
      type,
      type,
      book.zone,
    ]);
    return book;
  };
  await owner.query('INSERT INTO organisation (id, name, created_at) VALUES ($1, $2, $3)', [organisation, 'Test bakehouse', now]);
  const [site, house] = [await make('site'), await make('organisation')];
  const asker = (permissions: readonly Permission[] = permission.options): Asker => ({
    person: randomUUID(),
    session: null,
    device: null,
    permissions: new Set(permissions),
    whenSigned: new Set(permissions),
  });
  const writer = new LedgerWriter({
    inOrganisation: (o, work) => tenancy.inOrganisation(o, work),
    now: () => clock.now(),
    fault: (e) => faults.push(e),
  });
  const stop = async (): Promise<void> => {
    await pool.end();
    await owner.end();
    await database.drop();
  };
  const { ownerUrl, serviceUrl } = database;
  return { ownerUrl, serviceUrl, owner, pool, tenancy, clock, faults, organisation, site, house, asker, writer, stop };
}
export type TestLedger = Awaited<ReturnType<typeof startLedger>>;

/** The result of each: the problem where it was refused. */
export const as = (results: readonly Result[]): string[] => results.map((r) => (r.as === 'refused' ? r.problem : r.as));

/** There is no internal error, and both books verify. */
export async function expectSound(ledger: TestLedger): Promise<void> {
  expect(ledger.faults).toEqual([]);
  for (const book of [ledger.site, ledger.house]) {
    await ledger.tenancy.inOrganisation(ledger.organisation, async (client) => {
      expect((await verifyBytes(client, book)).findings).toEqual([]);
      expect(await verifyForm(client, book)).toEqual([]);
      expect(await verifyProjections(client, book)).toEqual([]);
    });
  }
}
