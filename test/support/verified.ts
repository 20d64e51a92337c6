import { connected } from '../../apps/api/src/platform/database/index.js';
import { rebuild } from '../../apps/api/src/platform/ledger/rebuild.js';
import type { BookRef } from '../../apps/api/src/platform/ledger/types.js';
import { isFault, type Finding } from '../../apps/api/src/platform/ledger/findings.js';
import { verifyBytes, verifyForm, verifyProjections } from '../../apps/api/src/platform/ledger/verify.js';
import { valueTypes } from '../../apps/api/src/platform/database/types.js';

export interface Verified {
  readonly entries: ReadonlyMap<string, number>;
  readonly faults: readonly Finding[];
}

/** All three passes over every book of a business, then its projections made again and compared once more. */
export async function verified(
  t: { readonly database: { readonly ownerUrl: string } },
  { organisation }: { readonly organisation: string },
): Promise<Verified> {
  return connected(t.database.ownerUrl, async (client) => {
    for (const oid of [20, 1082, 1184, 1700]) client.setTypeParser(oid, valueTypes.getTypeParser(oid));
    const entries = new Map<string, number>();
    const faults: Finding[] = [];
    const { rows: books } = await client.query<BookRef>('SELECT organisation, id, type, zone FROM book WHERE organisation = $1', [
      organisation,
    ]);
    for (const book of books) {
      await client.query('BEGIN');
      const report = await verifyBytes(client, book);
      entries.set(book.id, report.entries);
      faults.push(...report.findings.filter(isFault), ...(await verifyForm(client, book)), ...(await verifyProjections(client, book)));
      await client.query('COMMIT');
    }
    await client.query('BEGIN');
    for (const book of books) await rebuild(client, book);
    await client.query('COMMIT');
    for (const book of books) {
      await client.query('BEGIN');
      faults.push(...(await verifyProjections(client, book)));
      await client.query('COMMIT');
    }
    return { entries, faults };
  });
}
