import type { Bundle, BundleBook } from './bundle.js';
import { readCosignature } from './cosignature.js';
import { sha256, type Sha256 } from './hash.js';
import { readWitnessKey } from './note-key.js';
import { textOfNote } from './note.js';
import type { BookReport, BundleReport } from './report.js';
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
function findIn(text: string, book: BundleBook, report: BookReport): Held | undefined {
  const { origin, seal } = report;
  if (seal !== 'good') return undefined;
  if (book.verifierKey === text) return { finding: 'is-a-key-here', origin };
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

/** A witness's key is looked for in every book, anything else until it is found. */
function findHeld(held: string, bundle: Bundle, reports: readonly BookReport[]): readonly Held[] {
  const text = held.trim();
  const find = readWitnessKey(text) === undefined ? findIn : witnessIn;
  const found = bundle.books.flatMap((book, i) => (reports[i] && find(text, book, reports[i])) ?? []);
  const nothing: Held = { finding: 'not-here', origin: null };
  return found.length === 0 ? [nothing] : find === witnessIn ? found : found.slice(0, 1);
}

/**
 * Checks what a ledger hands out against its signed seals, without trusting the keeper of the ledger. `held` is what the reader had before: keys, roots
 * in hex, notes, or keys of witnesses, each of which must be found. Never throws. Rules: FORMAT.md; RFC 9162, RFC 8785, c2sp.org/signed-note, c2sp.org/tlog-checkpoint.
 */
export function verifyBundle(bundle: Bundle, held: readonly string[] = [], hash: Sha256 = sha256): BundleReport {
  const books = bundle.books.map((book) => verifyBook(book, hash));
  const found = held.filter((text) => text.trim() !== '').flatMap((text) => findHeld(text, bundle, books));
  const ok = books.every((book) => book.ok) && found.every(({ finding }) => finding !== 'not-here' && finding !== 'cosignature-wrong');
  return { ok, books, held: found, says: sentences(ok, books, found) };
}
