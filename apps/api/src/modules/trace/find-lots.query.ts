import { lotCodeKey, type Row } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import type { Computed, Maybe, TableRow } from '../../platform/database/index.js';
import { wasThereSql } from '../standing/index.js';

type Lot = TableRow<'lot'>;
interface Found extends Pick<Lot, 'id' | 'name' | 'type' | 'at' | 'book' | 'mg'> {
  readonly supplierName: Maybe<Row<'party'>>['name'];
  readonly code: Computed<Lot['code']>;
  readonly pieces: Computed<Lot['pieces']>;
}
export interface Sought {
  readonly words: Computed<string>;
  /** The books whose lots the person may see; no others are looked at. */
  readonly books: readonly Lot['book'][];
  readonly limit: Computed<number>;
}

/** So many names of a book are tried, and so many of those that fit are followed to lots of any age. */
const names = { tried: 5_000, followed: 200 };

/**
 * For the rest of the transaction: a walk along an index is never traded for reading a site's lots and sorting them. Without statistics the planner
 * takes a site for a handful of rows.
 */
const walksOnly = ['enable_seqscan', 'enable_bitmapscan', 'enable_sort', 'enable_incremental_sort']
  .map((way) => `SET LOCAL ${way} = off`)
  .join('; ');

/** $1 organisation, $2 books, $3 the words, $4 the same as a pattern, $5 how many, $6 a pattern of the code. Each part is found along an index, per book, and bounded. */
const search = `
  WITH RECURSIVE name(book, name) AS (
    SELECT s.book, n.name FROM unnest($2::uuid[]) s(book)
    CROSS JOIN LATERAL (SELECT name FROM lot WHERE organisation = $1 AND (book, name) >= (s.book, '') AND book <= s.book ORDER BY book, name LIMIT 1) n
    UNION ALL SELECT m.book, n.name FROM name m
    CROSS JOIN LATERAL (SELECT name FROM lot WHERE organisation = $1 AND (book, name) > (m.book, m.name) AND book <= m.book ORDER BY book, name LIMIT 1) n
  ), found(lot) AS (
    SELECT c FROM lots_by_code($3, $2, $5::int) c
    UNION
    SELECT l.id FROM (SELECT * FROM (SELECT * FROM name LIMIT ${names.tried} * cardinality($2)) t WHERE t.name ILIKE $4 LIMIT ${names.followed}) m
    CROSS JOIN LATERAL (
      SELECT id FROM lot WHERE organisation = $1 AND (book, name) >= (m.book, m.name) AND (book, name) <= (m.book, m.name)
      ORDER BY book DESC, name DESC, at DESC LIMIT $5) l
    UNION SELECT c FROM lots_by_code_inside($3, $2, $5::int) c
  ), known AS (
    SELECT l.*, coalesce(l.code, b.code, i.code) AS known_code, coalesce(l.pieces, b.pieces) AS known_pieces FROM found f
    CROSS JOIN LATERAL (SELECT * FROM lot WHERE organisation = $1 AND id = f.lot OFFSET 0) l
    LEFT JOIN LATERAL (SELECT code, pieces FROM batch WHERE organisation = $1 AND id = f.lot OFFSET 0) b ON true
    LEFT JOIN LATERAL (SELECT code FROM lot_identified WHERE organisation = $1 AND lot = f.lot AND code IS NOT NULL ORDER BY seq DESC LIMIT 1) i ON true
  ), first AS (
    SELECT *, lot_code_key(known_code) = lot_code_key($3) AS exact, coalesce(known_code ILIKE $4 OR lot_code_key(known_code) LIKE $6, false) AS by_code FROM known
    WHERE (known_code ILIKE $4 OR lot_code_key(known_code) LIKE $6 OR name ILIKE $4) AND (type <> 'withdrawn' OR ${wasThereSql('known.id')})
    ORDER BY exact DESC NULLS LAST, by_code DESC, at DESC, id LIMIT $5)
  SELECT k.id, k.name, k.type, k.known_code AS code, p.name AS "supplierName", k.at, k.book, k.mg, k.known_pieces AS pieces FROM first k
  LEFT JOIN LATERAL (SELECT name FROM party WHERE organisation = $1 AND party = k.supplier ORDER BY since DESC LIMIT 1) p ON true
  ORDER BY k.exact DESC NULLS LAST, k.by_code DESC, k.at DESC, k.id`;

/**
 * Lots by code (received, batch or given later) or by name, the newest first; exact codes before other codes before names. A code is found by anything
 * in it, with or without its spaces and dashes, a name by anything in it, whatever the lot's age.
 */
export async function findLots(client: ClientBase, organisation: string, { words, books, limit }: Sought): Promise<readonly Found[]> {
  if (books.length === 0) return [];
  const key = lotCodeKey(words);
  // Not waited for: it goes out in front of the search in the same round trip.
  const [, { rows }] = await Promise.all([
    client.query(walksOnly),
    client.query<Found>(search, [organisation, books, words, inside(words), limit, key === '' ? null : inside(key)]),
  ]);
  return rows;
}

/** Anything that has these letters in it, as they stand. */
const inside = (letters: string): string => `%${letters.replace(/[\\%_]/g, '\\$&')}%`;
