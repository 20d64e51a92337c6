import type { Bundle, BundleBook } from './bundle.js';
import { sha256, type Sha256 } from './hash.js';
import type { BookReport, BundleReport, HeldFinding } from './report.js';
import { sentences } from './report-says.js';
import { verifyBook } from './verify-book.js';

/** What the reader had before, against one book: its key, or the note or root of a seal of it that was found good. */
function findIn(text: string, book: BundleBook, report: BookReport): HeldFinding {
  if (report.seal !== 'good') return 'not-here';
  if (book.verifierKey === text) return 'is-a-key-here';
  const earlier = (book.earlier ?? []).filter((_, at) => report.earlier[at]?.finding === 'good').map(({ checkpoint }) => checkpoint.trim());
  const roots = [report.rootHex, ...report.earlier.filter(({ finding }) => finding === 'good').map(({ rootHex }) => rootHex)];
  return [book.checkpoint.trim(), ...earlier].includes(text) || roots.includes(text.toLowerCase()) ? 'is-a-seal-here' : 'not-here';
}

function findHeld(held: string, bundle: Bundle, reports: readonly BookReport[]): BundleReport['held'][number] {
  for (const [i, book] of bundle.books.entries()) {
    const report = reports[i];
    const finding = report === undefined ? 'not-here' : findIn(held.trim(), book, report);
    if (finding !== 'not-here') return { finding, origin: report?.origin ?? null };
  }
  return { finding: 'not-here', origin: null };
}

/**
 * Checks what a ledger hands out against its signed seals, without trusting the keeper of the ledger. `held` is what the reader had before: keys, roots
 * in hex, or notes, each of which must be found. Never throws. Rules: FORMAT.md; RFC 9162, RFC 8785, c2sp.org/signed-note, c2sp.org/tlog-checkpoint.
 */
export function verifyBundle(bundle: Bundle, held: readonly string[] = [], hash: Sha256 = sha256): BundleReport {
  const books = bundle.books.map((book) => verifyBook(book, hash));
  const found = held.filter((text) => text.trim() !== '').map((text) => findHeld(text, bundle, books));
  const ok = books.every((book) => book.ok) && found.every(({ finding }) => finding !== 'not-here');
  return { ok, books, held: found, says: sentences(ok, books, found) };
}
