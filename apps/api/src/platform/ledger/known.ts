import { kindOf, type ReadEntry } from '@bakehouse/records';
import type { Stamp } from '@bakehouse/kernel';
import type { ClientBase } from 'pg';
import type { Content } from './content.js';
import type { Job, Receipt } from './types.js';

export interface Known {
  readonly hash: Buffer;
  readonly receipt: Receipt;
  readonly outcome?: unknown;
}

/** The last content of a chain of corrections, and whether the chain was withdrawn after it. */
export interface Chain {
  readonly kind: string;
  content: { read: ReadEntry; outcome: unknown; stamp: Stamp } | undefined;
  withdrawn: boolean;
  readonly book: string;
}

const decoder = new TextDecoder();
export const contentOf = (bytes: Uint8Array): Content => JSON.parse(decoder.decode(bytes)) as Content; // our own canonical bytes, checked by `verify`

/** Reads the input part of stored bytes with its kind; words are given where they are still there. */
export function readContent(content: Content, words: Record<string, { text: string; salt: string }> = {}): ReadEntry {
  const { words: committed, ...input } = content.input;
  const there = Object.fromEntries(
    Object.keys(isObject(committed) ? committed : {}).flatMap((key) => (words[key] ? [[key, words[key]] as const] : [])),
  );
  const read = kindOf(input)?.readStored({ ...input, ...(Object.keys(there).length > 0 ? { words: there } : {}) });
  if (!read?.ok) throw new Error(`entry ${String(input['id'])} of kind ${String(input['kind'])} cannot be read any more`);
  return read;
}

const isObject = (value: unknown): value is Record<string, unknown> => typeof value === 'object' && value !== null;

interface KnownRow {
  readonly id: string;
  readonly book: string;
  readonly seq: number;
  readonly leaf: Buffer;
  readonly input_hash: Buffer;
  readonly recorded_at: string;
}

/** Which of these ids are recorded already: also the ids that entries say they come after. */
export async function loadKnown(client: ClientBase, organisation: string, jobs: readonly Job[]): Promise<Map<string, Known>> {
  const ids = [...new Set(jobs.flatMap((j) => (j.read.ok ? [j.read.envelope.id, ...(j.read.envelope.after ?? [])] : [])))];
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
  const { rows } = await client.query<{ id: string; bytes: Buffer }>({
    name: 'outcomes',
    text: 'SELECT e.id, b.bytes FROM entry e JOIN entry_body b USING (organisation, book, seq) WHERE e.organisation = $1 AND e.id = ANY($2)',
    values: [organisation, ids],
  });
  return new Map(rows.map((r) => [r.id, contentOf(r.bytes).outcome]));
}

/** The chains that these jobs correct, as they stand before this commit. */
export async function loadChains(client: ClientBase, organisation: string, jobs: readonly Job[]): Promise<Map<string, Chain>> {
  const roots = [...new Set(jobs.flatMap((j) => (j.read.ok && j.read.envelope.corrects !== undefined ? [j.read.envelope.corrects] : [])))];
  const chains = new Map<string, Chain>();
  if (roots.length === 0) return chains;
  const { rows } = await client.query<{ root: string; kind: string; book: string; bytes: Buffer | null }>({
    name: 'chains',
    text: `SELECT e.root, e.kind, e.book, b.bytes FROM entry e LEFT JOIN entry_body b USING (organisation, book, seq)
           WHERE e.organisation = $1 AND e.root = ANY($2) ORDER BY e.book, e.seq`,
    values: [organisation, roots],
  });
  for (const r of rows) extendChain(chains, r.root, r.kind, r.book, r.bytes ? () => fromBytes(r.bytes) : undefined);
  return chains;
}

function fromBytes(bytes: Uint8Array | null): Chain['content'] {
  if (!bytes) return undefined;
  const content = contentOf(bytes);
  return { read: readContent(content), outcome: content.outcome, stamp: content.stamp };
}

/** Adds one entry to its chain: the first gives the chain its kind, a withdrawal empties it, content fills it again. */
export function extendChain(
  chains: Map<string, Chain>,
  root: string,
  kind: string,
  book: string,
  content: (() => Chain['content']) | undefined,
): void {
  const chain = chains.get(root);
  if (!chain) chains.set(root, { kind, book, content: content?.(), withdrawn: false });
  else if (kind === chain.kind) {
    chain.content = content?.();
    chain.withdrawn = false;
  } else chain.withdrawn = true;
}
