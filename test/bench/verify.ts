import { createHash } from 'node:crypto';
import pg from 'pg';
import { servicePool, Tenancy } from '../../apps/api/dist/platform/database/index.js';
import { LedgerWriter } from '../../apps/api/dist/platform/ledger/ledger-writer.js';
import { pagesOf } from '../../apps/api/dist/platform/ledger/read-entries.js';
import type { BookRef } from '../../apps/api/dist/platform/ledger/types.js';
import { verifyBytes, verifyForm, verifyProjections } from '../../apps/api/dist/platform/ledger/verify.js';
import { permission } from '@bakehouse/kernel';
import { percentile, timedAsync, type Row } from './_measure.js';
import { newId, readingEntry } from './_entries.js';
import { benchDatabase } from './_service.js';

const entries = Number(process.env['BENCH_ENTRIES'] ?? 100_000);
const rounds = Number(process.env['BENCH_ROUNDS'] ?? 3);

/** Each pass of a verification over a book, against reading the same bytes from the same database and hashing each with bare SHA-256. */
export async function run(): Promise<Row[]> {
  const database = await benchDatabase();
  const url = await database.url('verify');
  const owner = new pg.Client({ connectionString: url });
  await owner.connect();
  const pool = servicePool(database.serviceUrl(url), 4);
  try {
    const tenancy = new Tenancy(pool);
    const book: BookRef = { organisation: newId(), id: newId(), type: 'site', zone: 'Europe/London' };
    await owner.query("INSERT INTO organisation (id, name, created_at) VALUES ($1, 'Bench', now())", [book.organisation]);
    await owner.query("INSERT INTO book (organisation, id, type, name, zone) VALUES ($1, $2, 'site', 'Bench', 'Europe/London')", [
      book.organisation,
      book.id,
    ]);
    await fill(tenancy, book);
    await owner.query('ANALYZE');
    const inBook = <T>(work: (client: pg.ClientBase) => Promise<T>): Promise<T> => tenancy.inOrganisation(book.organisation, work);
    const bare = (): Promise<number> => inBook((client) => hashBare(client, book));
    const bytes = await bare();
    const passes = [
      ['bytes and tree', () => inBook((client) => verifyBytes(client, book)), 3],
      ['canonical form', () => inBook((client) => verifyForm(client, book)), 3],
      ['projections', () => inBook((client) => verifyProjections(client, book)), 3],
    ] as const;
    const rows: Row[] = [];
    for (const [what, pass, target] of passes) {
      const pairs: { mine: number; theirs: number }[] = [];
      for (let i = 0; i < rounds; i += 1) pairs.push({ mine: await timedAsync(pass), theirs: await timedAsync(bare) });
      const ratio = percentile(
        pairs.map((p) => p.mine / p.theirs),
        0.5,
      );
      rows.push({
        what,
        entries,
        megabytes: bytes / 1e6,
        'p50 ms': percentile(
          pairs.map((p) => p.mine),
          0.5,
        ),
        'bare p50 ms': percentile(
          pairs.map((p) => p.theirs),
          0.5,
        ),
        ratio,
        target,
        verdict: target === undefined ? undefined : ratio <= target ? 'within' : 'over',
      });
    }
    return rows;
  } finally {
    await pool.end();
    await owner.end();
    await database.stop();
  }
}

async function hashBare(client: pg.ClientBase, book: BookRef): Promise<number> {
  let total = 0;
  for await (const page of pagesOf(client, book)) {
    for (const e of page)
      if (e.bytes) {
        createHash('sha256').update(e.bytes).digest();
        total += e.bytes.length;
      }
  }
  return total;
}

async function fill(tenancy: Tenancy, book: BookRef): Promise<void> {
  const writer = new LedgerWriter({
    inOrganisation: (o, work) => tenancy.inOrganisation(o, work),
    now: () => new Date(Date.now()),
    fault: (error) => {
      throw error;
    },
  });
  const asker = {
    person: newId(),
    session: null,
    device: null,
    permissions: new Set(permission.options),
    whenSigned: new Set(permission.options),
  };
  for (let done = 0; done < entries; done += 400) {
    const results = await writer.record(
      book,
      asker,
      Array.from({ length: Math.min(400, entries - done) }, () => readingEntry(book.id)),
    );
    const bad = results.find((r) => r.as !== 'recorded');
    if (bad) throw new Error(JSON.stringify(bad));
  }
}
