import type { ClientBase } from 'pg';
import type { Computed, TableRow } from '../database/index.js';
import { about, type Finding, type FindingType } from './findings.js';
import { tables } from './table.js';

interface Found {
  readonly book: Computed<string | null>;
  readonly seq: Computed<number | null>;
  readonly entry: Computed<string | null>;
  readonly what: Computed<string>;
}

interface Check {
  readonly type: FindingType;
  readonly sql: string;
}

const book = (column: string): string => `(SELECT name FROM book WHERE organisation = $1 AND id = ${column})`;
const orphans = (table: string, entry: string, what: string): Check => ({
  type: 'left-behind',
  sql: `SELECT NULL AS book, NULL AS seq, t.${entry} AS entry, ${what} AS what FROM ${table} t
    LEFT JOIN entry e ON e.organisation = t.organisation AND e.id = t.${entry} WHERE t.organisation = $1 AND t.${entry} IS NOT NULL AND e.id IS NULL`,
});

/** What stands beside the entries of all books and is no row of theirs: each query gives what is wrong with it. */
const checks: readonly Check[] = [
  orphans('sending', 'entry', "'how an entry came is on record, and there is no such entry'"),
  orphans('entry_word', 'entry', `format('the text of "%s" belongs to an entry that is not there', t.key)`),
  orphans('signature_token', 'used_by', "'a signature was used for an entry that is not there'"),
  {
    type: 'sending-differs',
    sql: `SELECT ${book('e.book')} AS book, e.seq, e.id AS entry, CASE
        WHEN s.entry IS NULL THEN 'how it came is gone'
        WHEN s.received_at <> e.recorded_at THEN 'it came at another time than its entry says'
        ELSE 'the session that sent it is gone, or somebody else’s' END AS what
      FROM entry e LEFT JOIN sending s ON s.organisation = e.organisation AND s.entry = e.id
        LEFT JOIN session x ON x.organisation = s.organisation AND x.id = s.session
      WHERE e.organisation = $1 AND (s.entry IS NULL OR s.received_at <> e.recorded_at OR (s.session IS NOT NULL AND x.person IS DISTINCT FROM e.person))`,
  },
  {
    type: 'signature-differs',
    sql: `SELECT ${book('e.book')} AS book, e.seq, e.id AS entry, 'its signature is not the one that was given for it' AS what
      FROM signature_token t JOIN entry e ON e.organisation = t.organisation AND e.id = t.used_by
      WHERE t.organisation = $1 AND (e.signed_by, e.signed_as, e.signed_at, e.input_hash) IS DISTINCT FROM (t.person, t.meaning, t.signed_at, t.input_hash)`,
  },
  {
    type: 'photo-edited',
    sql: `SELECT ${book('p.book')} AS book, NULL AS seq, NULL AS entry, format('the photo %s is not what its name says', p.id) AS what
      FROM photo p WHERE p.organisation = $1 AND sha256(p.bytes) <> decode(p.id, 'hex')`,
  },
  ...['photo', 'set_aside', ...[...tables.values()].map((t) => t.name)].map((name) => ofNoBook(name, 'book')),
  ofNoBook('device', 'site'),
];

function ofNoBook(table: string, column: string): Check {
  return {
    type: 'book-gone',
    sql: `SELECT t.id AS book, NULL AS seq, NULL AS entry, format('%s of ${table} belong to it, and there is no such book', t.count) AS what
      FROM (SELECT "${column}" AS id, count(*) FROM "${table}" WHERE organisation = $1 GROUP BY 1) t
      WHERE NOT EXISTS (SELECT FROM book b WHERE b.organisation = $1 AND b.id = t.id)`,
  };
}

/** What stands beside the entries of a house: how they came, their words, signatures and photos, and whether each book is there. */
export async function verifyBeside(client: ClientBase, organisation: TableRow<'organisation'>['id']): Promise<Finding[]> {
  const findings: Finding[] = [];
  for (const { type, sql } of checks) {
    const { rows } = await client.query<Found>(`${sql} ORDER BY 1, 2, 3, 4`, [organisation]);
    findings.push(...rows.map((r) => about(type, `${r.book === null ? '' : `${r.book}: `}${r.what}`, r)));
  }
  return findings;
}
