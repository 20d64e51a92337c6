import { kindOf, type Origin, type ReadEntry } from '@bakehouse/records';
import type { Stamp } from '@bakehouse/kernel';
import type { ClientBase } from 'pg';
import type { Columns, Maybe, TableRow } from '../database/index.js';
import type { Content } from './content.js';
import type { Job, Receipt } from './types.js';

export interface Known {
  readonly hash: Buffer;
  readonly receipt: Receipt;
  readonly outcome?: unknown;
}

/** What stored bytes say, as the newest version of their kind says it. */
export interface Stored {
  readonly read: ReadEntry;
  readonly outcome: unknown;
  readonly stamp: Stamp;
}

/** Where the rows of a chain's content come from. */
export const originOf = ({ read, stamp }: Stored): Origin => ({ entry: read.envelope.id, seq: stamp.seq });

/** The last content of a chain of corrections, undefined where that is withheld, and whether the chain was withdrawn after it. */
export interface Chain {
  readonly kind: string;
  content: Stored | undefined;
  withdrawn: boolean;
  readonly book: string;
}

/** The words of one entry that are still there, by their keys. */
type Words = Readonly<Record<string, { readonly text: string; readonly salt: string }>>;

const decoder = new TextDecoder();
export const contentOf = (bytes: Uint8Array): Content => JSON.parse(decoder.decode(bytes)) as Content; // our own canonical bytes, checked by `verify`

/** Reads the input part of stored bytes with its kind; words are given where they are still there. */
export function readContent(content: Content, words: Words = {}): ReadEntry {
  const { words: committed, ...input } = content.input;
  const there = Object.fromEntries(
    Object.keys(isObject(committed) ? committed : {}).flatMap((key) => (words[key] ? [[key, words[key]] as const] : [])),
  );
  const read = kindOf(input)?.readStored({ ...input, ...(Object.keys(there).length > 0 ? { words: there } : {}) });
  if (!read?.ok) throw new Error(`entry ${String(input['id'])} of kind ${String(input['kind'])} cannot be read any more`);
  return read;
}

/** Reads stored bytes: payload and outcome are brought to their newest versions, the bytes stay as they are. */
export function readStored(bytes: Uint8Array, words?: Words): Stored {
  const content = contentOf(bytes);
  const read = readContent(content, words);
  return { read, outcome: read.outcomeOf(content.outcome, content.outcomeVersion), stamp: content.stamp };
}

const isObject = (value: unknown): value is Record<string, unknown> => typeof value === 'object' && value !== null;

type Entry = TableRow<'entry'>;
type Body = Pick<TableRow<'entryBody'>, 'bytes'>;
type KnownRow = Columns<Pick<Entry, 'id' | 'book' | 'seq' | 'leaf' | 'inputHash' | 'recordedAt'>>;

/** Which of these ids are recorded already: also the ids that entries say they come after. */
export async function loadKnown(client: ClientBase, organisation: string, jobs: readonly Job[]): Promise<Map<string, Known>> {
  const ids = [...new Set(jobs.flatMap((j) => [...(j.id === null ? [] : [j.id]), ...(j.read.ok ? (j.read.envelope.after ?? []) : [])]))];
  const { rows } = await client.query<KnownRow>({
    name: 'known ids',
    text: 'SELECT id, book, seq, leaf, input_hash, recorded_at FROM entry WHERE organisation = $1 AND id = ANY($2)',
    values: [organisation, ids],
  });
  return new Map(
    rows.map((r) => [
      r.id,
      { hash: r.input_hash, receipt: { book: r.book, seq: r.seq, leaf: r.leaf.toString('hex'), recordedAt: r.recorded_at } },
    ]),
  );
}

/** What deciding gave for entries that came before, by id; null where the body is withheld. Asked only where one comes again. */
export async function outcomesOf(client: ClientBase, organisation: string, ids: readonly string[]): Promise<Map<string, unknown>> {
  const { rows } = await client.query<Pick<Entry, 'id'> & Body>({
    name: 'outcomes',
    text: 'SELECT e.id, b.bytes FROM entry e JOIN entry_body b USING (organisation, book, seq) WHERE e.organisation = $1 AND e.id = ANY($2)',
    values: [organisation, ids],
  });
  return new Map(rows.map((r) => [r.id, readStored(r.bytes).outcome]));
}

/** The chains that these jobs correct, as they stand before this commit. */
export async function loadChains(client: ClientBase, organisation: string, jobs: readonly Job[]): Promise<Map<string, Chain>> {
  const roots = [...new Set(jobs.flatMap((j) => (j.read.ok && j.read.envelope.corrects !== undefined ? [j.read.envelope.corrects] : [])))];
  const chains = new Map<string, Chain>();
  if (roots.length === 0) return chains;
  const { rows } = await client.query<Pick<Entry, 'root' | 'kind' | 'book'> & Maybe<Body>>({
    name: 'chains',
    text: `SELECT e.root, e.kind, e.book, b.bytes FROM entry e LEFT JOIN entry_body b USING (organisation, book, seq)
           WHERE e.organisation = $1 AND e.root = ANY($2) ORDER BY e.book, e.seq`,
    values: [organisation, roots],
  });
  for (const r of rows) extendChain(chains, r.root, r.kind, r.book, r.bytes ? readStored(r.bytes) : undefined);
  return chains;
}

/** Adds one entry to its chain: the first gives the chain its kind, a withdrawal empties it, content fills it again. Content may be withheld. */
export function extendChain(chains: Map<string, Chain>, root: string, kind: string, book: string, content: Stored | undefined): void {
  const chain = chains.get(root);
  if (!chain) chains.set(root, { kind, book, content, withdrawn: false });
  else if (kind === chain.kind) {
    chain.content = content;
    chain.withdrawn = false;
  } else chain.withdrawn = true;
}
