import { projectionVersion } from '@bakehouse/records';
import type { Stamp } from '@bakehouse/kernel';
import { Frontier, leafHash } from '@bakehouse/ledger';
import type { ClientBase } from 'pg';
import type { Columns, TableRow } from '../database/index.js';
import { beside, besideColumns } from './beside.js';
import { contentBytes, sha256 } from './content.js';
import type { BookRef, Job, Receipt } from './types.js';

const hex = (bytes: Uint8Array): string => Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength).toString('hex');
const decoder = new TextDecoder();

interface Appended {
  readonly job: Job;
  readonly id: string;
  readonly root: string;
  readonly seq: number;
  readonly bytes: Uint8Array;
  readonly leaf: Uint8Array;
  readonly stamp: Stamp;
  readonly hash: Buffer;
}

/** A locked book: its size, its tree and the entries that this commit appends. */
export class Head {
  private readonly appended: Appended[] = [];

  private constructor(
    private readonly book: BookRef,
    private size: number,
    private readonly frontier: Frontier,
    readonly now: string,
  ) {}

  /**
   * Locks the heads of these books, always in the same order, so that two processes never wait for each other crosswise. A statement of its
   * own: a later one then sees what the last holder of the locks committed. Time never runs back.
   */
  static async lock(
    client: ClientBase,
    organisation: string,
    books: readonly BookRef[],
    clockNow: () => Date,
  ): Promise<ReadonlyMap<string, Head>> {
    const { rows } = await client.query<Columns<Pick<TableRow<'book'>, 'id' | 'size' | 'frontier' | 'lastAt'>>>({
      name: 'lock heads',
      text: 'SELECT id, size, frontier, last_at FROM book WHERE organisation = $1 AND id = ANY($2) ORDER BY id FOR UPDATE',
      values: [organisation, books.map((b) => b.id)],
    });
    const now = clockNow().toISOString();
    const heads = rows.flatMap(({ id, size, frontier, last_at }): [string, Head][] => {
      const book = books.find((b) => b.id === id);
      return book
        ? [[id, new Head(book, size, Frontier.from(size, frontier, sha256), last_at !== null && last_at > now ? last_at : now)]]
        : [];
    });
    return new Map(heads);
  }

  stamp(job: Job): Omit<Stamp, 'signature'> {
    const { organisation, id, zone } = this.book;
    return { recordedAt: this.now, seq: this.size, organisation, book: id, person: job.asker.person, zone };
  }

  /** Appends in memory; nothing is written before `save`. */
  append(job: Job, input: NonNullable<Job['input']>, id: string, root: string, outcome: unknown, stamp: Stamp): Receipt {
    const bytes = contentBytes(input, outcome, job.kind?.outcomeVersion ?? 1, stamp);
    const leaf = leafHash(bytes, sha256);
    this.frontier.append(leaf);
    this.appended.push({ job, id, root, seq: stamp.seq, bytes, leaf, stamp, hash: input.hash });
    this.size += 1;
    return { book: this.book.id, seq: stamp.seq, leaf: Buffer.from(leaf).toString('hex'), recordedAt: stamp.recordedAt };
  }

  /** Entries, bodies, sendings, words and the new heads of every book that grew: one statement, one round trip. */
  static async save(client: ClientBase, organisation: string, heads: Iterable<Head>): Promise<void> {
    const grown = [...heads].filter((h) => h.appended.length > 0);
    if (grown.length === 0) return;
    const entries = grown.flatMap((h) =>
      h.appended.map(({ job, id, root, seq, bytes, leaf, stamp, hash }) => ({
        book: h.book.id,
        seq,
        id,
        root,
        kind: job.kind?.name,
        leaf: hex(leaf),
        input_hash: hex(hash),
        recorded_at: stamp.recordedAt,
        ...(job.read.ok ? beside(job.read.envelope, stamp) : {}),
        body: decoder.decode(bytes),
        session: job.asker.session,
        attempt: attemptOf(job),
      })),
    );
    const words = grown.flatMap((h) =>
      h.appended.flatMap(({ job, id }) =>
        job.read.ok ? Object.entries(job.read.envelope.words ?? {}).map(([key, w]) => ({ entry: id, key, ...w })) : [],
      ),
    );
    const books = grown.map((h) => ({ id: h.book.id, size: h.size, frontier: h.frontier.toHex(), last_at: h.now }));
    await client.query({
      name: 'append entries',
      text: appendText,
      values: [organisation, JSON.stringify(entries), JSON.stringify(words), JSON.stringify(books), projectionVersion],
    });
  }
}

/** Which try it was, as far as the column counts. */
const attemptOf = ({ read }: Job): number | null =>
  read.ok && read.envelope.send?.attempt !== undefined ? Math.min(read.envelope.send.attempt, 2_147_483_647) : null;

const appendText = `
  WITH n AS MATERIALIZED (SELECT * FROM json_to_recordset($2::json)
    AS n(book uuid, seq bigint, id uuid, root uuid, kind text, leaf text, input_hash text, recorded_at timestamptz, body text, session uuid, attempt int,
      person uuid, precision text, until timestamptz, signed_by uuid, signed_at timestamptz, signed_as text)),
  e AS (INSERT INTO entry (organisation, book, seq, id, root, kind, leaf, input_hash, recorded_at, ${besideColumns.join(', ')})
    SELECT $1, book, seq, id, root, kind, decode(leaf, 'hex'), decode(input_hash, 'hex'), recorded_at, ${besideColumns.join(', ')} FROM n),
  b AS (INSERT INTO entry_body (organisation, book, seq, bytes) SELECT $1, book, seq, convert_to(body, 'UTF8') FROM n),
  s AS (INSERT INTO sending (organisation, entry, received_at, session, attempt) SELECT $1, id, recorded_at, session, attempt FROM n),
  w AS (INSERT INTO entry_word (organisation, entry, key, salt, text)
    SELECT $1, entry, key, salt, text FROM json_to_recordset($3::json) AS w(entry uuid, key text, salt text, text text))
  UPDATE book SET size = h.size, frontier = h.frontier, last_at = h.last_at, projection = CASE WHEN book.size = 0 THEN $5 ELSE book.projection END
  FROM json_to_recordset($4::json) AS h(id uuid, size bigint, frontier text[], last_at timestamptz) WHERE book.organisation = $1 AND book.id = h.id`;
