import { payloadOf } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import type { Computed, TableRow } from '../database/index.js';
import { about, type Finding } from './findings.js';
import { contentOf } from './known.js';
import type { StoredEntry } from './read-entries.js';
import type { BookRef } from './types.js';

interface Withheld extends Pick<TableRow<'entry'>, 'seq' | 'id' | 'kind'> {
  readonly covered: Computed<boolean>;
}
interface Recorded {
  readonly seq: number;
  readonly kind: string;
  readonly before: string;
  readonly bodies: number;
}

/** What the ledger says was withheld: gathered as its entries are read, and held against the bodies that are not there. */
export class Withholdings {
  private readonly recorded: Recorded[] = [];
  private missing = 0;

  noteMissing(): void {
    this.missing += 1;
  }

  note(e: Pick<StoredEntry, 'kind' | 'seq'>, bytes: Uint8Array): void {
    if (e.kind !== 'bodies-withheld') return;
    const payload = payloadOf('bodies-withheld', contentOf(bytes).input['payload']);
    if (payload) this.recorded.push({ seq: e.seq, ...payload });
  }

  /** Each body that is not there: withheld on record, or removed. Of a kind no more may be gone than the record says. */
  async findings(client: ClientBase, book: BookRef): Promise<readonly Finding[]> {
    if (this.missing === 0) return [];
    const { rows } = await client.query<Withheld>(coveredText, [
      book.organisation,
      book.id,
      book.zone,
      this.recorded.map((r) => r.kind),
      this.recorded.map((r) => r.before),
      this.recorded.map((r) => r.seq),
    ]);
    const gone = new Map<string, number>();
    const found = rows.map((e): Finding => {
      if (e.covered) gone.set(e.kind, (gone.get(e.kind) ?? 0) + 1);
      return e.covered
        ? about('body-withheld', 'its body was withheld; its leaf stands in the tree', { seq: e.seq, entry: e.id })
        : about('body-removed', 'its body is gone, and no record says that it was withheld', { seq: e.seq, entry: e.id });
    });
    return [...found, ...[...gone].flatMap(([kind, count]) => this.tooMany(kind, count))];
  }

  private tooMany(kind: string, count: number): Finding[] {
    const said = this.recorded.filter((r) => r.kind === kind).reduce((sum, r) => sum + r.bodies, 0);
    return count > said
      ? [about('body-removed', `${count} bodies of ${kind} are gone, and the record says that ${said} were withheld`)]
      : [];
  }
}

/** A chain is withheld whole, by the kind that it begins with and the day before which the last of it was received until then. */
const coveredText = `
  WITH gone AS (SELECT e.seq, e.id, e.root FROM entry e LEFT JOIN entry_body b USING (organisation, book, seq)
      WHERE e.organisation = $1 AND e.book = $2 AND b.seq IS NULL)
  SELECT g.seq, g.id, coalesce(f.kind, '') AS kind, EXISTS (
      SELECT FROM unnest($4::text[], $5::date[], $6::bigint[]) w(kind, before, seq) WHERE w.kind = f.kind AND w.seq > g.seq
        AND NOT EXISTS (SELECT FROM entry x WHERE x.organisation = $1 AND x.root = g.root AND x.seq < w.seq
          AND x.recorded_at >= w.before::timestamp AT TIME ZONE $3)) AS covered
  FROM gone g LEFT JOIN entry f ON f.organisation = $1 AND f.id = g.root ORDER BY g.seq`;
