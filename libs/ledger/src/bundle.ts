/** One entry as it is handed out: its bytes, or only its leaf where the body is withheld; and its place in the tree where not all entries are shown. */
export interface BundleEntry {
  /** Place in the ledger, counted from 0. */
  readonly seq: number;
  readonly bytesBase64?: string;
  readonly withheldLeafHex?: string;
  readonly proofHex?: readonly string[];
}

/** A seal that left the house before, with the proof that the later one still holds what it held. */
export interface EarlierSeal {
  readonly checkpoint: string;
  readonly proofHex?: readonly string[];
}

/** What an outsider is handed. The verifier key must have come another way (on paper, before), or it proves nothing. */
export interface Bundle {
  readonly checkpoint: string;
  readonly verifierKey: string;
  readonly entries: readonly BundleEntry[];
  readonly earlier?: readonly EarlierSeal[];
}

const isRecord = (value: unknown): value is Record<string, unknown> => typeof value === 'object' && value !== null && !Array.isArray(value);
const isTexts = (value: unknown): value is string[] => Array.isArray(value) && value.every((item) => typeof item === 'string');
const optional = <T>(value: unknown, is: (value: unknown) => value is T): value is T | undefined => value === undefined || is(value);
const isText = (value: unknown): value is string => typeof value === 'string';

function isEntry(value: unknown): value is BundleEntry {
  return (
    isRecord(value) &&
    Number.isSafeInteger(value['seq']) &&
    optional(value['bytesBase64'], isText) &&
    optional(value['withheldLeafHex'], isText) &&
    optional(value['proofHex'], isTexts)
  );
}

const isEarlier = (value: unknown): value is EarlierSeal =>
  isRecord(value) && isText(value['checkpoint']) && optional(value['proofHex'], isTexts);

function isBundle(value: unknown): value is Bundle {
  if (!isRecord(value) || !isText(value['checkpoint']) || !isText(value['verifierKey'])) return false;
  const { entries, earlier } = value;
  return (
    Array.isArray(entries) && entries.every(isEntry) && (earlier === undefined || (Array.isArray(earlier) && earlier.every(isEarlier)))
  );
}

/** A bundle from a file's text; undefined when it is not JSON of that shape. */
export function readBundle(text: string): Bundle | undefined {
  try {
    const value: unknown = JSON.parse(text);
    return isBundle(value) ? value : undefined;
  } catch {
    return undefined;
  }
}
