import type { Bundle, BundleBook } from './bundle.js';
import { readCosignature } from './cosignature.js';
import { sha256, type Sha256 } from './hash.js';
import { followKeys, vouches, type KeyHistory } from './key-change.js';
import { readWitnessKey } from './note-key.js';
import { textOfNote } from './note.js';
import type { BookReport, BundleReport } from './report.js';
import { openBookSeal } from './open-seal.js';
import { sentences } from './report-says.js';
import { verifyBook } from './verify-book.js';

type Held = BundleReport['held'][number];

/** The seals of a book that can be relied on, the book's own first, each with the lines of its witnesses. */
function goodSeals({ checkpoint, cosignatures, earlier = [] }: BundleBook, report: BookReport) {
  if (report.seal !== 'good') return [];
  const before = earlier.flatMap((one, at) => {
    const found = report.earlier[at];
    return found?.finding === 'good' ? [{ ...one, size: found.size, rootHex: found.rootHex }] : [];
  });
  return [{ checkpoint, cosignatures, size: report.size, rootHex: report.rootHex }, ...before];
}

/** What the reader had before, against one book: its key, or the note or root of a seal of it that was found good; undefined where it is none of them. */
function findIn(text: string, book: BundleBook, report: BookReport, keys: KeyHistory): Held | undefined {
  const { origin, seal } = report;
  if (seal !== 'good') return undefined;
  const turn = keys.turns.findIndex(({ key }) => key === text);
  if (turn >= 0) {
    const signer = openBookSeal(book.checkpoint, keys.turns).turn ?? keys.turns.length - 1;
    return { finding: vouches(keys, turn, signer) ? 'is-a-key-here' : 'is-a-lost-key-here', origin };
  }
  const isSeal = goodSeals(book, report).some(({ checkpoint, rootHex }) => checkpoint.trim() === text || rootHex === text.toLowerCase());
  return isSeal ? { finding: 'is-a-seal-here', origin } : undefined;
}

/** What a witness whose key the reader had signed of a book. A line that says it is the witness's and is not is told before any good one. */
function witnessIn(key: string, book: BundleBook, report: BookReport): Held | undefined {
  const { origin } = report;
  let largest: Held['cosigned'];
  for (const { checkpoint, cosignatures = [], size } of goodSeals(book, report))
    for (const line of cosignatures) {
      const found = readCosignature(line, textOfNote(checkpoint) ?? '', key);
      if (found.is === 'wrong') return { finding: 'cosignature-wrong', origin };
      if (found.is === 'good' && size !== null && size > (largest?.size ?? -1)) largest = { size, seconds: found.seconds };
    }
  return largest && { finding: 'is-a-witness-here', origin, cosigned: largest };
}

interface Judged {
  readonly book: BundleBook;
  readonly keys: KeyHistory;
  readonly report: BookReport;
}
const doesNotFit: ReadonlySet<Held['finding']> = new Set(['not-here', 'cosignature-wrong', 'is-a-lost-key-here']);

/** A witness's key is looked for in every book, anything else until it is found. */
function findHeld(held: string, judged: readonly Judged[]): readonly Held[] {
  const text = held.trim();
  const find = readWitnessKey(text) === undefined ? findIn : witnessIn;
  const found = judged.flatMap(({ book, report, keys }) => find(text, book, report, keys) ?? []);
  const nothing: Held = { finding: 'not-here', origin: null };
  return found.length === 0 ? [nothing] : find === witnessIn ? found : found.slice(0, 1);
}

/**
 * Checks what a ledger hands out against its signed seals, without trusting the keeper of the ledger. `held` is what the reader had before: keys, roots
 * in hex, notes, or keys of witnesses, each of which must be found. Never throws. Rules: FORMAT.md; RFC 9162, RFC 8785, c2sp.org/signed-note, c2sp.org/tlog-checkpoint.
 */
export function verifyBundle(bundle: Bundle, held: readonly string[] = [], hash: Sha256 = sha256): BundleReport {
  const judged = bundle.books.map((book) => {
    const keys = followKeys(bundle.format === 'ledger-bundle/1' ? [] : (book.keys ?? []), book.verifierKey);
    return { book, keys, report: verifyBook(book, keys, hash) };
  });
  const books = judged.map(({ report }) => report);
  const found = held.filter((text) => text.trim() !== '').flatMap((text) => findHeld(text, judged));
  const ok = books.every((book) => book.ok) && found.every(({ finding }) => !doesNotFit.has(finding));
  return { ok, books, held: found, says: sentences(ok, books, found) };
}
