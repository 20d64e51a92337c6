import {
  openBookSeal,
  readCheckpoint,
  readKeyChange,
  textOfNote,
  type Checkpoint,
  type KeyTurn,
  type SealFinding,
} from '@bakehouse/ledger';
import type { ClientBase } from 'pg';
import type { TableRow } from '../database/index.js';
import { about, type Finding } from './findings.js';
import { readKeys, type KeyRow } from './verify-keys.js';
import { originOf, sealBefore } from './origin.js';
import type { BookRef } from './types.js';

/** The key that seals of an origin are checked with; or that there is none here; or that nobody asked about signatures. */
export type SealKeys = ((origin: string) => string) | 'none-here' | 'not-asked';

type SealRow = Pick<TableRow<'seal'>, 'size' | 'root' | 'note'>;
type Cosigned = Pick<TableRow<'cosignature'>, 'size'>;

const same = (a: Uint8Array, b: Uint8Array): boolean => Buffer.compare(a, b) === 0;

/** The seals of a book: each by itself, and then, as the tree is made again, each against the tree of its size. */
export class SealChecks {
  /** The roots that are claimed of the tree, by its size. */
  private readonly claims = new Map<number, Uint8Array[]>();
  private fitted = 0;
  private readonly found: Finding[] = [];

  private constructor(rows: readonly SealRow[], changes: readonly KeyRow[], signed: readonly Cosigned[], book: BookRef, keys: SealKeys) {
    const origin = originOf(book.id);
    const history = readKeys(changes, origin, typeof keys === 'function' ? keys(origin) : undefined);
    this.found.push(...(keys === 'not-asked' ? [] : history.found));
    if (rows.length > 0 && keys === 'none-here')
      this.found.push(about('seal-unchecked', `the signatures of ${rows.length} ${rows.length === 1 ? 'seal' : 'seals'} were not checked`));
    this.found.push(...goneOf(rows, changes, signed));
    for (const row of rows)
      for (const { size, root } of this.read(row, origin, history.turns)) this.claims.set(size, [...(this.claims.get(size) ?? []), root]);
  }

  static async of(client: ClientBase, book: BookRef, keys: SealKeys): Promise<SealChecks> {
    const { rows } = await client.query<SealRow>('SELECT size, root, note FROM seal WHERE organisation = $1 AND book = $2 ORDER BY size', [
      book.organisation,
      book.id,
    ]);
    const { rows: changes } = await client.query<KeyRow>(
      'SELECT turn, size, note FROM key_change WHERE organisation = $1 AND book = $2 ORDER BY turn',
      [book.organisation, book.id],
    );
    const { rows: signed } = await client.query<Cosigned>('SELECT DISTINCT size FROM cosignature WHERE organisation = $1 AND book = $2', [
      book.organisation,
      book.id,
    ]);
    return new SealChecks(rows, changes, signed, book, keys);
  }

  /** What of a seal is to be held against the tree: the column, and what was signed where that says another. */
  private read({ size, root, note }: SealRow, origin: string, turns: readonly KeyTurn[] | undefined) {
    const opened = turns && openBookSeal(note, turns);
    const said = checkpointIn(note);
    const isWrong = opened !== undefined && opened.finding !== 'good';
    const wrong = isWrong ? faults[opened.finding] : said ? whatDiffers(said, { size, root, origin }) : faults['malformed-note'];
    if (wrong !== undefined) this.found.push(about('seal-forged', `the seal over ${size} entries: ${wrong}`));
    return [{ size, root }, ...(said && !isWrong && said.origin === origin ? [said] : [])];
  }

  /** The tree has this many leaves now. */
  reached(size: number, root: () => Uint8Array): void {
    const here = this.claims.get(size);
    if (!here) return;
    const made = root();
    if (here.every((r) => same(r, made))) this.fitted = size;
    else this.found.push(about('seal-differs', this.range(size), { seq: size === 0 ? null : size - 1 }));
  }

  private range(size: number): string {
    const between = this.fitted === 0 ? '' : `; the first ${this.fitted} are, so look from number ${this.fitted} on`;
    return `the first ${size} entries are not those that were sealed${between}`;
  }

  /** The tree is complete. */
  findings(size: number): readonly Finding[] {
    const beyond = [...this.claims.keys()].filter((s) => s > size).sort((a, b) => a - b);
    return [
      ...this.found,
      ...beyond.map((s) =>
        about('cut-back', `a seal was made over ${s} entries, and ${size} are there: number ${size} to ${s - 1} are gone`),
      ),
    ];
  }
}

/** Seals that are not there, though a later one, a witness or a handover of the key says that they were made. */
function goneOf(rows: readonly SealRow[], changes: readonly KeyRow[], signed: readonly Cosigned[]): readonly Finding[] {
  const here = new Set(rows.map(({ size }) => size));
  const by = new Map<number, string>();
  for (const { size } of signed) by.set(size, 'as a witness signed');
  for (const { size, note } of changes)
    if (readKeyChange(textOfNote(note) ?? '')?.type === 'handover') by.set(size, 'as a handover of the key says');
  for (const { size, note } of rows) {
    const before = sealBefore(checkpointIn(note)?.extensions);
    if (before !== undefined) by.set(before, `as the one over ${size} says`);
  }
  return [...by]
    .filter(([size]) => !here.has(size))
    .map(([size, who]) => about('seal-gone', `a seal over ${size} entries was made, ${who}, and it is gone`));
}

const faults: Readonly<Record<Exclude<SealFinding, 'good'>, string>> = {
  'malformed-note': 'its note cannot be read',
  'malformed-key': 'the key here cannot be read',
  'malformed-checkpoint': 'its note cannot be read',
  'not-signed-by-key': 'its note is not signed with the key of this house',
  'key-not-led-to': 'what was said of its keys does not lead to the key here, so it cannot be checked',
  'key-out-of-turn': 'it is signed with a key of this house that made no seals of that size any more, or not yet',
  'signature-wrong': 'its note was changed after it was signed',
};

function whatDiffers(said: Checkpoint, { size, root, origin }: Pick<Checkpoint, 'size' | 'root' | 'origin'>): string | undefined {
  if (said.origin !== origin) return 'its note is about another book';
  if (said.size !== size) return `its note is about ${said.size} entries`;
  return same(said.root, root) ? undefined : 'its note says another root than stands beside it';
}

function checkpointIn(note: string): Checkpoint | undefined {
  const split = note.lastIndexOf('\n\n');
  return split < 0 ? undefined : readCheckpoint(note.slice(0, split + 1));
}
