import type { ClientBase } from 'pg';
import type { TableRow } from '../../platform/database/index.js';
import type { BookKey, SealRow } from './seals.query.js';

type Row = TableRow<'cosignature'>;
export type CosignatureRow = Pick<Row, 'size' | 'witness' | 'line'>;

/** The newest seal of a book. */
export async function lastSealOf(client: ClientBase, { organisation, id }: BookKey): Promise<SealRow | undefined> {
  const { rows } = await client.query<SealRow>(
    'SELECT size, root, note, at FROM seal WHERE organisation = $1 AND book = $2 ORDER BY size DESC LIMIT 1',
    [organisation, id],
  );
  return rows[0];
}

/** What witnesses signed of a book's seals up to that size, the latest first. */
export async function cosignaturesOf(
  client: ClientBase,
  { organisation, id }: BookKey,
  from: number,
  to: number,
): Promise<readonly CosignatureRow[]> {
  const { rows } = await client.query<CosignatureRow>(
    'SELECT size, witness, line FROM cosignature WHERE organisation = $1 AND book = $2 AND size >= $3 AND size <= $4 ORDER BY size DESC, witness',
    [organisation, id, from, to],
  );
  return rows;
}

/** The largest size of a book that this witness signed; undefined where it never did. */
export async function lastCosigned(client: ClientBase, { organisation, id }: BookKey, witness: string): Promise<number | undefined> {
  const { rows } = await client.query<Pick<Row, 'size'>>(
    'SELECT size FROM cosignature WHERE organisation = $1 AND book = $2 AND witness = $3 ORDER BY size DESC LIMIT 1',
    [organisation, id, witness],
  );
  return rows[0]?.size;
}

/** Kept once for a seal and a witness: the first one stands. */
export async function keepCosignature(
  client: ClientBase,
  { organisation, id }: BookKey,
  { size, witness, line, at }: Pick<Row, 'size' | 'witness' | 'line' | 'at'>,
): Promise<void> {
  await client.query(
    'INSERT INTO cosignature (organisation, book, size, witness, line, at) VALUES ($1, $2, $3, $4, $5, $6) ON CONFLICT DO NOTHING',
    [organisation, id, size, witness, line, at],
  );
}
