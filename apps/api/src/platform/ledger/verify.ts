import { canonicalBytes, commitment, Frontier, leafHash } from '@bakehouse/ledger';
import type { ClientBase } from 'pg';
import type { TableRow } from '../database/index.js';
import { besideOf, sameBeside } from './beside.js';
import { inputHashOf, sha256 } from './content.js';
import { contentOf, readStored } from './known.js';
import { pagesOf, wordsOf, type StoredEntry } from './read-entries.js';
import { compareProjections } from './rebuild.js';
import type { BookRef } from './types.js';

export type FindingType =
  | 'edited'
  | 'missing'
  | 'reordered'
  | 'written-twice'
  | 'body-withheld'
  | 'word-edited'
  | 'tree-differs'
  | 'seal-differs'
  | 'not-canonical'
  | 'unreadable'
  | 'projection-differs';
export interface Finding {
  readonly type: FindingType;
  readonly seq: number | null;
  readonly entry: string | null;
  readonly detail: string;
}
export interface Report {
  readonly book: string;
  readonly entries: number;
  readonly root: string;
  readonly findings: readonly Finding[];
}

/** Withheld by retention is said, and is no fault. */
export const isFault = (f: Finding): boolean => f.type !== 'body-withheld';

/** Pass 1: bytes, order and tree. Every leaf is made again; the tree is compared with the head and with every seal that left the house. */
export async function verifyBytes(client: ClientBase, book: BookRef): Promise<Report> {
  const findings: Finding[] = [];
  const tree = Frontier.empty(sha256);
  const seals = await sealsOf(client, book);
  const seen = new Map<string, number>();
  let next = 0;
  for await (const page of pagesOf(client, book)) {
    for (const e of page) {
      for (; next < e.seq; next += 1) findings.push({ type: 'missing', seq: next, entry: null, detail: `nothing stands at ${next}` });
      findings.push(...verifyOne(e, seen));
      tree.append(e.leaf);
      next = e.seq + 1;
      const sealed = seals.get(next);
      if (sealed && !sealed.equals(tree.root()))
        findings.push({
          type: 'seal-differs',
          seq: e.seq,
          entry: null,
          detail: `the first ${next} entries are not those that were sealed`,
        });
    }
  }
  findings.push(...(await headFindings(client, book, tree, next)));
  return { book: book.id, entries: tree.size, root: Buffer.from(tree.root()).toString('hex'), findings };
}

function verifyOne(e: StoredEntry, seen: Map<string, number>): Finding[] {
  const at = { seq: e.seq, entry: e.id };
  if (!e.bytes) return [{ ...at, type: 'body-withheld', detail: 'its body was withheld; its leaf stands in the tree' }];
  if (!e.leaf.equals(leafHash(e.bytes, sha256))) return [{ ...at, type: 'edited', detail: 'its bytes do not give its leaf' }];
  const content = contentOf(e.bytes);
  const id = String(content.input['id']);
  const before = seen.get(id);
  seen.set(id, e.seq);
  if (before !== undefined) return [{ ...at, type: 'written-twice', detail: `the entry at ${before} stands here again` }];
  if (content.stamp.seq !== e.seq) return [{ ...at, type: 'reordered', detail: `its bytes say that it is number ${content.stamp.seq}` }];
  const same =
    id === e.id &&
    content.input['kind'] === e.kind &&
    (content.input['corrects'] ?? id) === e.root &&
    content.stamp.recordedAt === e.recorded_at &&
    sameBeside(besideOf(content), e);
  return same ? [] : [{ ...at, type: 'edited', detail: 'what stands beside its bytes differs from them' }];
}

async function headFindings(client: ClientBase, book: BookRef, tree: Frontier, next: number): Promise<Finding[]> {
  const { rows } = await client.query<Pick<TableRow<'book'>, 'size' | 'frontier'>>(
    'SELECT size, frontier FROM book WHERE organisation = $1 AND id = $2',
    [book.organisation, book.id],
  );
  const head = rows[0];
  if (!head) return [{ type: 'tree-differs', seq: null, entry: null, detail: 'the book is gone' }];
  const tail = Array.from({ length: Math.max(0, head.size - next) }, (_, i): Finding => ({
    type: 'missing',
    seq: next + i,
    entry: null,
    detail: `nothing stands at ${next + i}`,
  }));
  const root = Frontier.from(head.size, head.frontier, sha256).root();
  const differs = tree.size === head.size && !Buffer.from(root).equals(tree.root());
  return differs ? [{ type: 'tree-differs', seq: null, entry: null, detail: 'the leaves do not give the root that the head holds' }] : tail;
}

async function sealsOf(client: ClientBase, book: BookRef): Promise<Map<number, Buffer>> {
  const { rows } = await client.query<Pick<TableRow<'seal'>, 'size' | 'root'>>(
    'SELECT size, root FROM seal WHERE organisation = $1 AND book = $2',
    [book.organisation, book.id],
  );
  return new Map(rows.map((r) => [r.size, r.root]));
}

/** Pass 2: every body is in canonical form and can still be read by its kind, and every word is the one that was committed to. */
export async function verifyForm(client: ClientBase, book: BookRef): Promise<Finding[]> {
  const findings: Finding[] = [];
  for await (const page of pagesOf(client, book)) {
    const words = await wordsOf(
      client,
      book,
      page.map((e) => e.id),
    );
    for (const e of page) if (e.bytes) findings.push(...formOf(e, e.bytes, words.get(e.id) ?? {}));
  }
  return findings;
}

function formOf(e: StoredEntry, bytes: Buffer, words: Record<string, { text: string; salt: string }>): Finding[] {
  const at = { seq: e.seq, entry: e.id };
  try {
    const content = contentOf(bytes);
    if (!bytes.equals(canonicalBytes(content))) return [{ ...at, type: 'not-canonical', detail: 'its bytes are not in canonical form' }];
    if (!e.input_hash.equals(inputHashOf(content.input)))
      return [{ ...at, type: 'edited', detail: 'the hash of its input beside its bytes differs from them' }];
    readStored(bytes, words);
    const committed = content.input['words'];
    const expected: Record<string, unknown> = typeof committed === 'object' && committed !== null ? { ...committed } : {};
    return Object.entries(words)
      .filter(([key, w]) => expected[key] !== commitment(w.salt, w.text))
      .map(([key]) => ({ ...at, type: 'word-edited', detail: `the text of "${key}" is not the one that was committed to` }));
  } catch (error) {
    return [{ ...at, type: 'unreadable', detail: error instanceof Error ? error.message : 'cannot be read' }];
  }
}

/** Pass 3: the projections are what the bytes give. */
export async function verifyProjections(client: ClientBase, book: BookRef): Promise<Finding[]> {
  const differences = await compareProjections(client, book);
  return differences.map(({ collection, id, entry, how }) =>
    how === 'withheld'
      ? {
          type: 'body-withheld',
          seq: null,
          entry,
          detail: `${collection} ${id} came from a body that is withheld; a rebuild takes it away`,
        }
      : { type: 'projection-differs', seq: null, entry, detail: `${collection} ${id} is ${how}` },
  );
}
