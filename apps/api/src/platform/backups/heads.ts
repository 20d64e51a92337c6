import { Frontier, fromHex, toHex } from '@bakehouse/ledger';
import { isoInstant } from '../database/types.js';
import { sha256 } from '../ledger/content.js';
import { rowValues, type BookSummary } from './form.js';

interface Head {
  readonly organisation: string;
  readonly book: string;
  readonly name: string;
  /** Size and frontier as the book's own row tells them. */
  readonly told: string;
  readonly tree: Frontier;
  newest: string | null;
}

/** What the rows of a backup say of each book: worked out while they are written, and again while they are read. */
export class Heads {
  private readonly heads = new Map<string, Head>();

  /** Takes up rows of a table, of which only books and entries, in their order, matter here. */
  take(table: string, columns: readonly string[], lines: readonly string[]): void {
    if (table !== 'book' && table !== 'entry') return;
    for (const line of lines) {
      const values = rowValues.parse(JSON.parse(line));
      const cell = (column: string): string => values[columns.indexOf(column)] ?? '';
      if (table === 'book') this.book(cell);
      else this.entry(cell);
    }
  }

  summary(): readonly BookSummary[] {
    return [...this.heads.values()].map(({ organisation, book, name, told, tree, newest }) => ({
      organisation,
      book,
      name,
      entries: tree.size,
      root: toHex(tree.root()),
      newest,
      fitsHead: told === `${tree.size} {${tree.toHex().join(',')}}`,
    }));
  }

  private book(cell: (column: string) => string): void {
    const [organisation, book] = [cell('organisation'), cell('id')];
    const told = `${cell('size')} ${cell('frontier')}`;
    this.heads.set(`${organisation} ${book}`, { organisation, book, name: cell('name'), told, tree: Frontier.empty(sha256), newest: null });
  }

  private entry(cell: (column: string) => string): void {
    const head = this.heads.get(`${cell('organisation')} ${cell('book')}`);
    if (!head) throw new Error('an entry of a book that is not there');
    head.tree.append(fromHex(cell('leaf').slice(2))); // \x…
    head.newest = isoInstant(cell('recorded_at'));
  }
}
