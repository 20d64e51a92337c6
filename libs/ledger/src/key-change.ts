import { readVerifierKey } from './note-key.js';
import { isNoteText, openNote, signNote, textOfNote, type NoteFault } from './note.js';

/** That the seals of a book are made with another key from a size on. Signed by the key before it; where that is lost, by the new one alone, which proves nothing. */
export interface KeyChange {
  readonly origin: string;
  readonly type: 'handover' | 'lost';
  /** Keys as their readers know them (`name+id+material`), the name the origin. */
  readonly from: string;
  readonly to: string;
  /** The key before seals no more than so many entries, the new one no fewer. */
  readonly size: number;
}

const heads = { handover: 'key-handover/1', lost: 'key-lost/1' } as const;

/** The statement as a note. Throws where it would not be read again. `seed` is the key's before it; of a lost key, the new one's. */
export function signKeyChange(change: KeyChange, seed: Uint8Array): string {
  const { origin, type, from, to, size } = change;
  const text = [origin, heads[type], from, to, size].map((line) => `${line}\n`).join('');
  if (readKeyChange(text) === undefined) throw new Error('no statement about two keys of one origin');
  return signNote(text, origin, seed);
}

/** Reads a statement's text; undefined where it is not exactly of that form. */
export function readKeyChange(text: string): KeyChange | undefined {
  const lines = text.slice(0, -1).split('\n');
  const [origin = '', head, from = '', to = '', size = ''] = lines;
  if (!text.endsWith('\n') || lines.length !== 5 || !isNoteText(text) || from === to) return undefined;
  if (readVerifierKey(from)?.name !== origin || readVerifierKey(to)?.name !== origin) return undefined;
  if (!/^(0|[1-9][0-9]{0,15})$/.test(size) || !Number.isSafeInteger(Number(size))) return undefined;
  const type = head === heads.handover ? 'handover' : head === heads.lost ? 'lost' : undefined;
  return type && { origin, type, from, to, size: Number(size) };
}

/** `lost`: the key before did not sign it, so nobody who trusts that one has a reason to trust the next. */
export type KeyFinding = 'good' | 'lost' | 'malformed-statement' | 'another-origin' | NoteFault | 'does-not-follow';

/** A key, and the sizes that it may seal. */
export interface KeyTurn {
  readonly key: string;
  readonly least: number;
  readonly most: number;
}

/** The keys of a book one after the other, and what is found of each statement between them; no turns where one of them does not lead on. */
export interface KeyHistory {
  readonly found: readonly { readonly size: number | null; readonly finding: KeyFinding }[];
  readonly turns: readonly KeyTurn[];
}

/** Follows the statements of a book, the oldest first, to the key that it has now. Never throws. */
export function followKeys(statements: readonly string[], verifierKey: string): KeyHistory {
  const now = readVerifierKey(verifierKey);
  if (now === undefined) return { found: [], turns: [{ key: verifierKey, least: 0, most: Number.MAX_SAFE_INTEGER }] };
  const changes = statements.map((note) => readKeyChange(textOfNote(note) ?? ''));
  const found = changes.map((change, i) => {
    if (change === undefined) return { size: null, finding: 'malformed-statement' as const };
    return { size: change.size, finding: judge(change, statements[i] ?? '', { changes, at: i, origin: now.name, verifierKey }) };
  });
  if (!found.every(({ finding }) => finding === 'good' || finding === 'lost')) return { found, turns: [] };
  const all = changes.flatMap((change) => change ?? []);
  const keys = [...all.map(({ from }) => from), verifierKey];
  const turns = keys.map((key, i) => ({ key, least: all[i - 1]?.size ?? 0, most: all[i]?.size ?? Number.MAX_SAFE_INTEGER }));
  return { found, turns };
}

interface Among {
  readonly changes: readonly (KeyChange | undefined)[];
  readonly at: number;
  readonly origin: string;
  readonly verifierKey: string;
}

function judge(change: KeyChange, note: string, { changes, at, origin, verifierKey }: Among): KeyFinding {
  const { type, from, to, size } = change;
  if (change.origin !== origin) return 'another-origin';
  const opened = openNote(note, type === 'handover' ? from : to);
  if (!opened.ok) return opened.why;
  const before = changes[at - 1];
  const follows = at === 0 || (before?.to === from && before.size <= size);
  const again = changes.slice(0, at + 1).some((one) => one?.from === to || (one !== change && one?.to === to));
  const arrives = at < changes.length - 1 || to === verifierKey;
  if (!follows || again || !arrives) return 'does-not-follow';
  return type === 'lost' ? 'lost' : 'good';
}

/** Whether somebody who trusts the key of one turn has a reason to trust what that of another signed. */
export const vouches = ({ found }: KeyHistory, trusted: number, signer: number): boolean =>
  trusted >= signer || found.slice(trusted, signer).every(({ finding }) => finding === 'good');
