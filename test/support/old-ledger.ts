import { createHash, randomUUID } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { connected } from '../../apps/api/src/platform/database/index.js';

const folder = path.resolve(import.meta.dirname, '../fixtures/ledger-before-words');

export interface OldEntry {
  readonly kind: string;
  readonly bytes: string;
  readonly inputHash: string;
  readonly leaf: string;
}

/** One entry of every kind, as the form before the present words hashed it. */
export const oldEntries = (): readonly OldEntry[] => JSON.parse(readFileSync(path.join(folder, 'entries.json'), 'utf8')) as OldEntry[]; // our own file

/** Makes an empty database into one of the earlier form: its migrations as they were applied, one book, one entry of every kind. */
export async function makeOldLedger(ownerUrl: string): Promise<void> {
  await connected(ownerUrl, async (owner) => {
    await owner.query(`CREATE TABLE _prisma_migrations (
      id VARCHAR(36) PRIMARY KEY NOT NULL, checksum VARCHAR(64) NOT NULL, finished_at TIMESTAMPTZ, migration_name VARCHAR(255) NOT NULL,
      logs TEXT, rolled_back_at TIMESTAMPTZ, started_at TIMESTAMPTZ NOT NULL DEFAULT now(), applied_steps_count INTEGER NOT NULL DEFAULT 0)`);
    for (const name of readdirSync(path.join(folder, 'migrations')).sort()) {
      const sql = readFileSync(path.join(folder, 'migrations', name, 'migration.sql'));
      await owner.query(sql.toString('utf8'));
      await owner.query(
        'INSERT INTO _prisma_migrations (id, checksum, finished_at, migration_name, applied_steps_count) VALUES ($1, $2, now(), $3, 1)',
        [randomUUID(), createHash('sha256').update(sql).digest('hex'), name],
      );
    }
    const [organisation, book] = [randomUUID(), randomUUID()];
    await owner.query('INSERT INTO organisation (id, name, created_at) VALUES ($1, $2, now())', [organisation, 'an earlier house']);
    await owner.query("INSERT INTO book (organisation, id, sort, name, zone) VALUES ($1, $2, 'site', 'its site', 'Europe/London')", [
      organisation,
      book,
    ]);
    for (const [seq, { kind, bytes, inputHash, leaf }] of oldEntries().entries()) {
      const id = randomUUID();
      await owner.query('INSERT INTO entry VALUES ($1, $2, $3, $4, $4, $5, $6, $7, now())', [
        organisation,
        book,
        seq,
        id,
        kind,
        Buffer.from(leaf, 'hex'),
        Buffer.from(inputHash, 'hex'),
      ]);
      await owner.query('INSERT INTO entry_body VALUES ($1, $2, $3, $4)', [organisation, book, seq, Buffer.from(bytes)]);
    }
  });
}
