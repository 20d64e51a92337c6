import { noSalt } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import { organisationIds, seeHouse, type Computed, type Maybe, type TableRow } from '../../platform/database/index.js';
import type { BookRef } from '../../platform/ledger/index.js';

/** What the queries of seals are asked with. */
export type Client = ClientBase;

/** Which book: all that a query about one needs. */
export type BookKey = Pick<BookRef, 'organisation' | 'id'>;

export type HeadRow = Pick<TableRow<'book'>, 'size' | 'frontier'>;
export type SealRow = Pick<TableRow<'seal'>, 'size' | 'root' | 'note' | 'at'>;
type Entry = TableRow<'entry'>;
/** A text beside the entry of that number. */
export type WordRow = Pick<Entry, 'seq'> & Pick<TableRow<'entryWord'>, 'key' | 'salt' | 'text'>;
export type BodyRow = Pick<Entry, 'seq' | 'leaf'> & Maybe<Pick<TableRow<'entryBody'>, 'bytes'>>;

export async function headOf(client: ClientBase, { organisation, id }: BookKey): Promise<HeadRow | undefined> {
  const { rows } = await client.query<HeadRow>('SELECT size, frontier FROM book WHERE organisation = $1 AND id = $2', [organisation, id]);
  return rows[0];
}

export async function sealOf(client: ClientBase, { organisation, id }: BookKey, size: number): Promise<SealRow | undefined> {
  const { rows } = await client.query<SealRow>(
    'SELECT size, root, note, at FROM seal WHERE organisation = $1 AND book = $2 AND size = $3',
    [organisation, id, size],
  );
  return rows[0];
}

/** The first seal over at least so many entries. */
export async function sealFrom(client: ClientBase, { organisation, id }: BookKey, size: number): Promise<SealRow | undefined> {
  const { rows } = await client.query<SealRow>(
    'SELECT size, root, note, at FROM seal WHERE organisation = $1 AND book = $2 AND size >= $3 ORDER BY size LIMIT 1',
    [organisation, id, size],
  );
  return rows[0];
}

/** Kept once for a size; where another request was first, its seal stands. */
export async function keepSeal(
  client: ClientBase,
  { organisation, id }: BookKey,
  seal: Omit<SealRow, 'root'> & { readonly root: Uint8Array },
): Promise<SealRow | undefined> {
  await client.query(
    'INSERT INTO seal (organisation, book, size, root, note, at) VALUES ($1, $2, $3, $4, $5, $6) ON CONFLICT (organisation, book, size) DO NOTHING',
    [organisation, id, seal.size, Buffer.from(seal.root), seal.note, seal.at],
  );
  return sealOf(client, { organisation, id }, seal.size);
}

/** Seals that left the house before this size, the latest first. */
export async function sealsBefore(
  client: ClientBase,
  { organisation, id }: BookKey,
  size: number,
  limit: number,
): Promise<readonly SealRow[]> {
  const { rows } = await client.query<SealRow>(
    'SELECT size, root, note, at FROM seal WHERE organisation = $1 AND book = $2 AND size < $3 ORDER BY size DESC LIMIT $4',
    [organisation, id, size, limit],
  );
  return rows;
}

const leavesAtOnce = 50_000;

/** The hashes of a book's first leaves, one after the other. Throws where one is missing: nothing can be sealed over a gap. */
export async function leavesOf(client: ClientBase, { organisation, id }: BookKey, size: number): Promise<Uint8Array> {
  const parts: Buffer[] = [];
  for (let from = 0; from < size; from += leavesAtOnce) {
    const { rows } = await client.query<{ leaves: Computed<Entry['leaf'] | null>; count: Computed<number> }>(
      `SELECT string_agg(leaf, ''::bytea ORDER BY seq) AS leaves, count(*) AS count FROM entry
       WHERE organisation = $1 AND book = $2 AND seq >= $3 AND seq < $4`,
      [organisation, id, from, Math.min(from + leavesAtOnce, size)],
    );
    parts.push(rows[0]?.leaves ?? Buffer.alloc(0));
  }
  const leaves = Buffer.concat(parts);
  if (leaves.length !== size * 32) throw new Error(`book ${id} lacks leaves below ${size}: verify the ledger`);
  return leaves;
}

/** Where in a book the records of a period stand, by when they were received: time never runs back in a book, so they stand together. */
export async function placesBetween(
  client: ClientBase,
  { organisation, id }: BookKey,
  from: string,
  until: string,
): Promise<{ first: Entry['seq']; count: Computed<number> }> {
  const { rows } = await client.query<{ first: Computed<Entry['seq'] | null>; count: Computed<number> }>(
    'SELECT min(seq) AS first, count(*) AS count FROM entry WHERE organisation = $1 AND book = $2 AND recorded_at >= $3 AND recorded_at < $4',
    [organisation, id, from, until],
  );
  return { first: rows[0]?.first ?? 0, count: rows[0]?.count ?? 0 };
}

/** Texts that stand beside entries, of the fields that are named. What stands in the place of an erased one opens nothing and is left out. */
export async function wordsFrom(
  client: ClientBase,
  { organisation, id }: BookKey,
  first: number,
  count: number,
  fields: readonly string[] | 'all',
): Promise<readonly WordRow[]> {
  const { rows } = await client.query<WordRow>(
    `SELECT e.seq, w.key, w.salt, w.text FROM entry e JOIN entry_body b USING (organisation, book, seq)
       JOIN entry_word w ON w.organisation = e.organisation AND w.entry = e.id
     WHERE e.organisation = $1 AND e.book = $2 AND e.seq >= $3 AND e.seq < $4 AND ($5::text[] IS NULL OR w.key = ANY($5)) AND w.salt <> $6
     ORDER BY e.seq, w.key`,
    [organisation, id, first, first + count, fields === 'all' ? null : fields, noSalt],
  );
  return rows;
}

/** How many texts beside these entries were erased. */
export async function erasedFrom(client: ClientBase, { organisation, id }: BookKey, first: number, count: number): Promise<number> {
  const { rows } = await client.query<{ readonly erased: Computed<number> }>(
    `SELECT count(*)::int AS erased FROM entry e JOIN entry_word w ON w.organisation = e.organisation AND w.entry = e.id
     WHERE e.organisation = $1 AND e.book = $2 AND e.seq >= $3 AND e.seq < $4 AND w.salt = $5`,
    [organisation, id, first, first + count, noSalt],
  );
  return rows[0]?.erased ?? 0;
}

export async function bodiesFrom(
  client: ClientBase,
  { organisation, id }: BookKey,
  first: number,
  count: number,
): Promise<readonly BodyRow[]> {
  const { rows } = await client.query<BodyRow>(
    `SELECT e.seq, e.leaf, b.bytes FROM entry e LEFT JOIN entry_body b USING (organisation, book, seq)
     WHERE e.organisation = $1 AND e.book = $2 AND e.seq >= $3 AND e.seq < $4 ORDER BY e.seq`,
    [organisation, id, first, first + count],
  );
  return rows;
}

/** The newest seal of each book, of whatever house, of whose key nothing was said yet; the transaction sees the last house when this returns. */
export async function newestSeals(client: ClientBase): Promise<readonly Pick<TableRow<'seal'>, 'book' | 'note'>[]> {
  const all: Pick<TableRow<'seal'>, 'book' | 'note'>[] = [];
  for (const organisation of await organisationIds(client)) {
    await seeHouse(client, organisation);
    const { rows } = await client.query<Pick<TableRow<'seal'>, 'book' | 'note'>>(
      `SELECT DISTINCT ON (book) book, note FROM seal s WHERE organisation = $1
         AND NOT EXISTS (SELECT FROM key_change k WHERE k.organisation = $1 AND k.book = s.book) ORDER BY book, size DESC`,
      [organisation],
    );
    all.push(...rows);
  }
  return all;
}
