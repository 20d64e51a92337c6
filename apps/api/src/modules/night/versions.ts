import { hash } from 'node:crypto';
import { LRUCache } from 'lru-cache';

export interface PlainRow {
  id: string;
  [field: string]: unknown;
}
export type PlainRows = Record<string, PlainRow[]>;
/** What each row of an answer was, by collection and id. */
type Prints = ReadonlyMap<string, ReadonlyMap<string, string>>;

/** Rows with the name of exactly these rows. */
export interface Version {
  readonly version: string;
  /** Whose night it is. */
  readonly of: string;
  readonly rows: PlainRows;
  readonly prints: Prints;
}
/** What differs from an earlier version, or everything where `since` is null. */
export interface Changes {
  readonly since: string | null;
  readonly rows: PlainRows;
  readonly gone: Record<string, string[]>;
}

const digest = (of: string): string => hash('sha256', of, 'base64url').slice(0, 22);
/** About 100 bytes a row: a night of a busy house has some 3,000 of them. */
const maxRows = 300_000;

/**
 * Remembers what the rows of recent answers were, by digest, so that a device that holds one of them is sent only what differs. A version is named by its
 * content: whatever a device holds, what it is sent fits on top. What is forgotten, or was answered by another process, is sent whole; so is what another
 * site or house was answered, whose rows are nobody else's to hear of.
 */
export class Versions {
  private readonly known = new LRUCache<string, Prints>({ maxSize: maxRows, sizeCalculation: (prints) => 1 + rowsIn(prints) });

  of(rows: PlainRows, of: string): Version {
    const prints = new Map(
      Object.entries(rows).map(
        ([name, some]) => [name, new Map(some.map((row) => [row.id, digest(JSON.stringify(row))] as const))] as const,
      ),
    );
    const version = digest(JSON.stringify([...prints].map(([name, some]) => [name, ...some])));
    this.known.set(`${of} ${version}`, prints);
    return { version, of, rows, prints };
  }

  changes(now: Version, since: string | undefined): Changes {
    const before = since === undefined ? undefined : this.known.get(`${now.of} ${since}`);
    if (since === undefined || before === undefined) return { since: null, rows: now.rows, gone: {} };
    const names = Object.keys(now.rows);
    const changed = names.map((name) => {
      const was = before.get(name);
      const is = now.prints.get(name);
      return [name, (now.rows[name] ?? []).filter(({ id }) => was?.get(id) !== is?.get(id))] as const;
    });
    const gone = [...before].map(([name, was]) => [name, [...was.keys()].filter((id) => !now.prints.get(name)?.has(id))] as const);
    return { since, rows: filled(changed), gone: filled(gone) };
  }
}

const rowsIn = (prints: Prints): number => [...prints.values()].reduce((sum, { size }) => sum + size, 0);
const filled = <T>(lists: readonly (readonly [string, T[]])[]): Record<string, T[]> =>
  Object.fromEntries(lists.filter(([, list]) => list.length > 0));
