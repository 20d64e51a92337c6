import * as z from 'zod';

/** Raised when a reader of the earlier form could not read the new one. */
export const formVersion = 1;

const sha256 = z.string().regex(/^[0-9a-f]{64}$/);

export const bookSummary = z.object({
  organisation: z.string(),
  book: z.string(),
  name: z.string(),
  entries: z.int(),
  /** Of the tree over the leaves that the backup holds. */
  root: sha256,
  /** When the newest of them was recorded. */
  newest: z.string().nullable(),
  /** Whether these are the entries that the book's head tells of. Where they are not, the records themselves were damaged before. */
  fitsHead: z.boolean(),
});
export type BookSummary = z.infer<typeof bookSummary>;

/** A line a book for a person. */
export const bookLines = (books: readonly BookSummary[]): readonly string[] =>
  books.map(({ name, entries, newest }) => `  ${name}: ${entries} entries${newest === null ? '' : `, the newest of ${newest}`}`);

const migrationRef = z.object({ name: z.string(), checksum: sha256 });
export type MigrationRef = z.infer<typeof migrationRef>;

export const header = z.object({
  bakehouseBackup: z.int(),
  /** When its moment was taken: everything that was committed by then is in it. */
  at: z.iso.datetime(),
  migrations: z.array(migrationRef),
  /** What seals are signed with, in base64; null where none was made yet. */
  sealKey: z.base64().nullable(),
});
export type Header = z.infer<typeof header>;

/** Of a file of any version: enough to say that it is another's. */
export const anyHeader = z.object({ bakehouseBackup: z.int() });
export const tableBegins = z.object({ table: z.string(), columns: z.array(z.string()) });
export const tableEnds = z.object({ rows: z.int(), sha256 });
export const fileEnds = z.object({ end: z.literal('whole'), tables: z.int(), books: z.array(bookSummary) });
/** A row: its values as PostgreSQL writes them as text, in the order of the table's columns. */
export const rowValues = z.array(z.string().nullable());
