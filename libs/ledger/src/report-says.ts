import type { BookReport, BundleReport, HeldFinding } from './report.js';

const wholeSentence = {
  fits: 'Every entry up to the seal was given: none was left out, added or moved.',
  differs: 'Every entry was given, and together they are not what was sealed.',
  'not-given': 'Not every entry of the book was given: of the others this says nothing, nor whether more belong to the same days.',
} as const;

const entries = (n: number): string => (n === 1 ? '1 entry' : `${n} entries`);

function ofBook(book: BookReport): string[] {
  if (book.seal !== 'good') return [`${plainName(book.name)}: the seal cannot be relied on (${book.seal}), so no entry was judged.`];
  const { counts, earlier } = book;
  const withheld = counts['in-the-tree-body-withheld'] ?? 0;
  const good = (counts['in-the-tree'] ?? 0) + withheld;
  const leftOut = counts['left-out'] ?? 0;
  const given = Object.values(counts).reduce((sum, n) => sum + n, 0) - leftOut;
  const held = earlier.filter(({ finding }) => finding === 'good').length;
  return [
    `${plainName(book.name)}: the seal of ${book.origin} is signed by the key that came with it; it speaks of ${entries(book.size ?? 0)}.`,
    given === 0
      ? 'No entry of this book was given.'
      : `${good} of ${entries(given)} given are exactly what was sealed${withheld > 0 ? `; of ${withheld} only the fingerprint is shown, so their content was not checked` : ''}.`,
    ...(leftOut > 0 ? [`${entries(leftOut)} that the file says it holds ${leftOut === 1 ? 'is' : 'are'} not in it.`] : []),
    ...(book.wordsOpened > 0 ? [`${book.wordsOpened} free texts fit what was sealed. Texts that were not given were not checked.`] : []),
    ...(given === 0 && book.size !== 0 ? [] : [wholeSentence[book.wholeTree]]),
    ...ofKeys(book),
    ...(earlier.length === 0 ? [] : [`${held} of ${earlier.length} earlier seals still hold: what they sealed is in this one, unchanged.`]),
  ];
}

function ofKeys({ keys, name }: BookReport): string[] {
  const lost = keys.filter(({ finding }) => finding === 'lost');
  const said =
    keys.length === lost.length ? [] : ['The key of the seals was changed, and the key before signed that the next one takes its place.'];
  return [
    ...said,
    ...lost.map(
      ({ size }) =>
        `${plainName(name)}: THE KEY WAS LOST after ${entries(size ?? 0)}. Nobody who had it signed the next one: a key or paper from before proves nothing of what came later. Ask how the new key was made known, and compare it with one that you had another way.`,
    ),
  ];
}

/** A name of the file is nobody's word: it does not move what stands around it, end a line or hide one. */
export const plainName = (name: string): string => name.replace(/[\p{Cc}\p{Cf}\u2028\u2029]/gu, '\uFFFD').slice(0, 120);

function ofWitness(name: string, finding: HeldFinding, cosigned: BundleReport['held'][number]['cosigned']): string[] {
  if (finding === 'cosignature-wrong')
    return [`${name}: what stands here as the signature of a witness whose key you had is not its signature.`];
  if (cosigned === undefined) return [];
  const at = new Date(cosigned.seconds * 1000);
  const when = Number.isNaN(at.getTime()) ? '' : `, at ${at.toISOString().slice(0, 16).replace('T', ' ')} UTC by its own clock`;
  return [
    `${name}: a witness whose key you had before signed a seal that is here, over ${entries(cosigned.size)}${when}: what that seal covers has not changed since.`,
  ];
}

function ofHeld(books: readonly BookReport[], held: BundleReport['held']): string[] {
  if (held.length === 0)
    return [
      'You compared nothing with a key or a seal that you had before. The keys came with the file: somebody who made up the whole file could have made up a key as well, and it would look like this.',
    ];
  const missing = held.some(({ finding }) => finding === 'not-here');
  const without = books.filter(({ origin }) => !held.some((one) => one.origin !== null && one.origin === origin));
  return [
    ...(held.some(({ finding }) => finding === 'is-a-key-here') ? ['A key that you had before is the key of a book here.'] : []),
    ...(held.some(({ finding }) => finding === 'is-a-lost-key-here')
      ? ['A key that you had before was lost here, and did not sign the one after it: it says nothing of this seal.']
      : []),
    ...(held.some(({ finding }) => finding === 'is-a-seal-here')
      ? ['A seal that you had before is here: what it covers has not changed since you had it. Of what came later it says nothing.']
      : []),
    ...held.flatMap(({ finding, origin, cosigned }) =>
      ofWitness(plainName(books.find((one) => one.origin === origin)?.name ?? ''), finding, cosigned),
    ),
    ...(missing
      ? [
          'Something that you had before is not in this file: it is of another key, or of a seal that the file does not hold. Ask for a file that holds it.',
        ]
      : []),
    ...without.map(
      ({ name }) =>
        `${plainName(name)}: you had neither key, seal nor witness of this book before, so it is compared with nothing from outside.`,
    ),
  ];
}

/** What was checked and where that ends. */
export function sentences(ok: boolean, books: readonly BookReport[], held: BundleReport['held']): string[] {
  return [
    ...books.flatMap(ofBook),
    ...ofHeld(books, held),
    ok ? 'All that was checked fits.' : 'Something does not fit: see the findings.',
    'A seal that never left the house proves little: until somebody outside has it, the keeper of the computer can rewrite everything and seal that.',
    'This does not show that what was recorded is true, that everything was recorded, or at what time a seal was made.',
  ];
}
