import { noSalt } from '@bakehouse/records';
import { canonicalBytes, commitment, Frontier, leafHash } from '@bakehouse/ledger';
import type { ClientBase } from 'pg';
import type { Columns, TableRow } from '../database/index.js';
import { besideOf, sameBeside } from './beside.js';
import { inputHashOf, sha256, type Content } from './content.js';
import { Erasures, isErased } from './erasures.js';
import { about, type Finding } from './findings.js';
import { contentOf, readStored } from './known.js';
import { pagesOf, wordsOf, type StoredEntry } from './read-entries.js';
import { compareProjections } from './rebuild.js';
import type { BookRef } from './types.js';
import { SealChecks, type SealKeys } from './verify-seals.js';
import { Withholdings } from './verify-withheld.js';

export interface Report {
  readonly book: string;
  readonly entries: number;
  readonly root: string;
  readonly findings: readonly Finding[];
}

/**
 * Pass 1: bytes, order and tree. Every leaf is made again; the tree is compared with the head and with every seal that left the house, and the bodies
 * that are not there with what the ledger says was withheld.
 */
export async function verifyBytes(client: ClientBase, book: BookRef, keys: SealKeys = 'not-asked'): Promise<Report> {
  const findings: Finding[] = [];
  const tree = Frontier.empty(sha256);
  const seals = await SealChecks.of(client, book, keys);
  const withheld = new Withholdings();
  const seen: Seen = { ids: new Map(), zones: new Set() };
  const root = (): Uint8Array => tree.root();
  let next = 0;
  let lastAt: string | null = null;
  seals.reached(0, root);
  for await (const page of pagesOf(client, book)) {
    for (const e of page) {
      for (; next < e.seq; next += 1) findings.push(about('missing', `nothing stands at ${next}`, { seq: next }));
      if (e.bytes) findings.push(...verifyOne(e, e.bytes, book, seen, withheld));
      else withheld.noteMissing();
      tree.append(e.leaf);
      next = e.seq + 1;
      lastAt = e.recorded_at;
      seals.reached(next, root);
    }
  }
  findings.push(...(await withheld.findings(client, book)), ...seals.findings(next));
  findings.push(...(await headFindings(client, book, { tree, next, lastAt, zones: seen.zones })));
  return { book: book.id, entries: tree.size, root: Buffer.from(tree.root()).toString('hex'), findings };
}

/** What was read so far: where each id stood, and the zones that entries say their book is in. */
interface Seen {
  readonly ids: Map<string, number>;
  readonly zones: Set<string>;
}

function verifyOne(e: StoredEntry, bytes: Buffer, book: BookRef, seen: Seen, withheld: Withholdings): Finding[] {
  const at = { seq: e.seq, entry: e.id };
  if (!e.leaf.equals(leafHash(bytes, sha256))) return [about('edited', 'its bytes do not give its leaf', at)];
  const content = readable(bytes);
  if (!content) return [about('unreadable', 'its bytes are no content of an entry', at)];
  const { input, stamp } = content;
  const id = String(input['id']);
  const before = seen.ids.get(id);
  seen.ids.set(id, e.seq);
  seen.zones.add(stamp.zone);
  if (before !== undefined) return [about('written-twice', `the entry at ${before} stands here again`, at)];
  if (stamp.book !== book.id || stamp.organisation !== book.organisation)
    return [about('reordered', 'its bytes say that it is of another book', at)];
  if (stamp.seq !== e.seq) return [about('reordered', `its bytes say that it is number ${stamp.seq}`, at)];
  withheld.note(e, bytes);
  const same =
    id === e.id &&
    input['kind'] === e.kind &&
    (input['corrects'] ?? id) === e.root &&
    stamp.recordedAt === e.recorded_at &&
    sameBeside(besideOf(content), e);
  return same ? [] : [about('edited', 'what stands beside its bytes differs from them', at)];
}

/** Bytes that were made up may be no content at all. */
function readable(bytes: Buffer): Content | undefined {
  try {
    const content = contentOf(bytes);
    return typeof content.input === 'object' && typeof content.stamp === 'object' ? content : undefined;
  } catch {
    return undefined;
  }
}

interface Made {
  readonly tree: Frontier;
  /** The number after the last entry. */
  readonly next: number;
  readonly lastAt: string | null;
  readonly zones: ReadonlySet<string>;
}

type HeadRow = Columns<Pick<TableRow<'book'>, 'size' | 'frontier' | 'lastAt' | 'zone'>>;

async function headFindings(client: ClientBase, book: BookRef, made: Made): Promise<readonly Finding[]> {
  const { rows } = await client.query<HeadRow>('SELECT size, frontier, last_at, zone FROM book WHERE organisation = $1 AND id = $2', [
    book.organisation,
    book.id,
  ]);
  const [head] = rows;
  return head ? [...zoneFindings(head, made), ...sizeFindings(head, made)] : [about('tree-differs', 'the book is gone')];
}

const zoneFindings = (head: HeadRow, { zones }: Made): Finding[] =>
  [...zones].filter((z) => z !== head.zone).map((z) => about('head-differs', `its zone is ${head.zone}, and entries say ${z}`));

function sizeFindings(head: HeadRow, { tree, next, lastAt }: Made): Finding[] {
  if (head.size > next)
    return Array.from({ length: head.size - next }, (_, i) => about('missing', `nothing stands at ${next + i}`, { seq: next + i }));
  if (head.size < next)
    return [about('head-differs', `its head says ${head.size} entries, and they go on to number ${next - 1}`, { seq: head.size })];
  const root = rootOfHead(head);
  if (!root) return [about('tree-differs', 'the tree at its head cannot be read')];
  if (tree.size === head.size && !root.equals(tree.root()))
    return [about('tree-differs', 'the leaves do not give the root that the head holds')];
  return head.last_at === lastAt
    ? []
    : [about('head-differs', `its head says that the last entry came ${head.last_at ?? 'never'}, and it came ${lastAt ?? 'never'}`)];
}

function rootOfHead({ size, frontier }: HeadRow): Buffer | undefined {
  try {
    return Buffer.from(Frontier.from(size, frontier, sha256).root());
  } catch {
    return undefined;
  }
}

/** Pass 2: every body is in canonical form and can still be read by its kind, and every word is the one that was committed to. */
export async function verifyForm(client: ClientBase, book: BookRef): Promise<Finding[]> {
  const findings: Finding[] = [];
  const erasures = await Erasures.of(client, book);
  for await (const page of pagesOf(client, book)) {
    const words = await wordsOf(
      client,
      book,
      page.map((e) => e.id),
    );
    for (const e of page)
      findings.push(...(e.bytes ? formOf(e, e.bytes, words.get(e.id) ?? {}, erasures) : besideNothing(e, words.get(e.id) ?? {})));
  }
  return findings;
}

/** A body is withheld together with the words beside it. */
const besideNothing = (e: StoredEntry, words: object): Finding[] =>
  Object.keys(words).map((key) =>
    about('word-edited', `its body is gone, and a text "${key}" stands that nothing commits to`, { seq: e.seq, entry: e.id }),
  );

/** A salt that was made up may be none at all. */
function fits({ salt, text }: { readonly salt: string; readonly text: string }, committed: unknown): boolean {
  try {
    return commitment(salt, text) === committed;
  } catch {
    return false;
  }
}

type Texts = Readonly<Record<string, { text: string; salt: string }>>;

function formOf(e: StoredEntry, bytes: Buffer, words: Texts, erasures: Erasures): Finding[] {
  const at = { seq: e.seq, entry: e.id };
  try {
    const content = contentOf(bytes);
    if (!bytes.equals(canonicalBytes(content))) return [{ ...at, type: 'not-canonical', detail: 'its bytes are not in canonical form' }];
    if (!e.input_hash.equals(inputHashOf(content.input)))
      return [{ ...at, type: 'edited', detail: 'the hash of its input beside its bytes differs from them' }];
    const committed = content.input['words'];
    const expected: Record<string, unknown> = typeof committed === 'object' && committed !== null ? { ...committed } : {};
    const [covered, open] = [(key: string) => erasures.cover(e, key), (key: string) => !erasures.cover(e, key)];
    const erased = Object.keys(expected).filter((key) => covered(key) && isErased(e, key, words[key]));
    const wrong = Object.entries(words).filter(([key, w]) => !erased.includes(key) && !fits(w, expected[key]));
    readStored(bytes, wrong.length === 0 ? words : {});
    const gone = Object.keys(expected).filter((key) => open(key) && words[key] === undefined);
    const back = Object.keys(expected).filter((key) => covered(key) && words[key] !== undefined && fits(words[key], expected[key]));
    return [
      ...wrong.map(([key, w]) => about('word-edited', notCommitted(key, w), at)),
      ...gone.map((key) => about('word-gone', `the text of "${key}" is gone`, at)),
      ...back.map((key) => about('word-back', `the text of "${key}" was erased, and is there`, at)),
      ...erased.map((key) => about('word-erased', `the text of "${key}" was erased`, at)),
    ];
  } catch (error) {
    return [{ ...at, type: 'unreadable', detail: error instanceof Error ? error.message : 'cannot be read' }];
  }
}

const notCommitted = (key: string, { salt }: { readonly salt: string }): string =>
  `the text of "${key}" is not the one that was committed to${salt === noSalt ? ': it stands as erased, and no record says that it was' : ''}`;

/** Pass 3: the projections are what the bytes give. */
export async function verifyProjections(client: ClientBase, book: BookRef): Promise<Finding[]> {
  const differences = await compareProjections(client, book);
  return differences.map(({ collection, id, entry, how }) =>
    about(
      'projection-differs',
      how === 'withheld' ? `${collection} ${id} came from a body that is gone; a rebuild takes it away` : `${collection} ${id} is ${how}`,
      { entry },
    ),
  );
}
