/** The forms that `readBundle` reads; described in FORMAT.md beside this folder. The second has statements about keys, and is written where there are any. */
export const bundleFormats = ['ledger-bundle/1', 'ledger-bundle/2'] as const;
export type BundleFormat = (typeof bundleFormats)[number];
export const formatFor = (books: readonly { readonly keys?: readonly string[] | undefined }[]): BundleFormat =>
  books.some(({ keys = [] }) => keys.length > 0) ? 'ledger-bundle/2' : 'ledger-bundle/1';

/** A text that stands beside an entry, with the salt that opens the commitment in the entry's bytes. */
export interface OpenedWord {
  readonly field: string;
  readonly salt: string;
  readonly text: string;
}

/** One entry as it is handed out: its bytes, or only its leaf where the body is withheld; and its place in the tree. */
export interface BundleEntry {
  /** Place in the ledger, counted from 0. */
  readonly seq: number;
  readonly bytesBase64?: string;
  readonly withheldLeafHex?: string;
  readonly proofHex?: readonly string[];
  readonly words?: readonly OpenedWord[];
}

/** A seal that was made before, with the proof that the later one still holds what it held. */
export interface EarlierSeal {
  readonly checkpoint: string;
  /** Lines in which witnesses signed this seal. */
  readonly cosignatures?: readonly string[];
  readonly proofHex?: readonly string[];
}

/** One book: its seal, the key, and the entries from `first` on that the bundle says it holds without a gap. */
export interface BundleBook {
  readonly name: string;
  readonly checkpoint: string;
  /** Lines in which witnesses signed this seal. */
  readonly cosignatures?: readonly string[];
  readonly verifierKey: string;
  /** Statements that lead from its first key to this one, the oldest first. */
  readonly keys?: readonly string[];
  readonly first: number;
  readonly count: number;
  readonly entries: readonly BundleEntry[];
  readonly earlier?: readonly EarlierSeal[];
}

/** What an outsider is handed. Its keys must have come another way as well (on paper, before), or they prove nothing. */
export interface Bundle {
  readonly format: BundleFormat;
  readonly books: readonly BundleBook[];
}

type Is<T> = (value: unknown) => value is T;
const isRecord = (value: unknown): value is Record<string, unknown> => typeof value === 'object' && value !== null && !Array.isArray(value);
const isText: Is<string> = (value) => typeof value === 'string';
const isWhole: Is<number> = (value): value is number => Number.isSafeInteger(value);
const listOf =
  <T>(is: Is<T>): Is<T[]> =>
  (value): value is T[] =>
    Array.isArray(value) && value.every(is);
const optional = <T>(value: unknown, is: Is<T>): value is T | undefined => value === undefined || is(value);

const isWord: Is<OpenedWord> = (value): value is OpenedWord =>
  isRecord(value) && isText(value['field']) && isText(value['salt']) && isText(value['text']);

const isEntry: Is<BundleEntry> = (value): value is BundleEntry =>
  isRecord(value) &&
  isWhole(value['seq']) &&
  optional(value['bytesBase64'], isText) &&
  optional(value['withheldLeafHex'], isText) &&
  optional(value['proofHex'], listOf(isText)) &&
  optional(value['words'], listOf(isWord));

const isEarlier: Is<EarlierSeal> = (value): value is EarlierSeal =>
  isRecord(value) &&
  isText(value['checkpoint']) &&
  optional(value['cosignatures'], listOf(isText)) &&
  optional(value['proofHex'], listOf(isText));

const isBook =
  (format: unknown): Is<BundleBook> =>
  (value): value is BundleBook =>
    isRecord(value) &&
    isText(value['name']) &&
    isText(value['checkpoint']) &&
    optional(value['cosignatures'], listOf(isText)) &&
    isText(value['verifierKey']) &&
    (format !== 'ledger-bundle/2' || optional(value['keys'], listOf(isText))) &&
    isWhole(value['first']) &&
    value['first'] >= 0 &&
    isWhole(value['count']) &&
    value['count'] >= 0 &&
    listOf(isEntry)(value['entries']) &&
    optional(value['earlier'], listOf(isEarlier));

const isBundle: Is<Bundle> = (value): value is Bundle =>
  isRecord(value) &&
  bundleFormats.some((one) => one === value['format']) &&
  listOf(isBook(value['format']))(value['books']) &&
  value['books'].length > 0;

/** A bundle from a file's text; undefined when it is not JSON of that shape. */
export function readBundle(text: string): Bundle | undefined {
  try {
    const value: unknown = JSON.parse(text);
    return isBundle(value) ? value : undefined;
  } catch {
    return undefined;
  }
}
