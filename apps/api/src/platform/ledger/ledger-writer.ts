import { isFollowed, kindOf, touchedBy, type AnyKind, watchedBy, WorkingSet, type Change } from '@bakehouse/records';
import { happened, isAhead, refuse, type Refused, type Stamp } from '@bakehouse/kernel';
import type { ClientBase } from 'pg';
import * as z from 'zod';
import { inputOf } from './content.js';
import { booksNamed } from './books-named.js';
import { ClearCut } from './clear-cut.js';
import { noteClear } from './clear-lots.js';
import { Forgetting } from './forgetting.js';
import { Head } from './head.js';
import { keepSetAside, refusedBefore } from './set-aside.js';
import { extendChain, loadChains, loadKnown, originOf, outcomesOf, type Chain, type Known } from './known.js';
import { allInOrder } from './all-in-order.js';
import { isOfTheData, Lane, RowTaken } from './lanes.js';
import { doersOf, loadDevices, senderProblem } from './senders.js';
import { loadSignatures, saveSignatures, useSignature, type Signatures } from './signatures.js';
import { noteHere, watch, Watching } from './on-watch.js';
import { loadNeeds, saveDirty, type View } from './store.js';
import type { Asker, BookRef, Job, Result } from './types.js';

const settleAgainMs = 3_600_000;

export interface WriterPorts {
  /** Opens the tenant's transaction, commits it when `work` returns and rolls back when it throws. */
  inOrganisation<T>(organisation: string, work: (client: ClientBase) => Promise<T>): Promise<T>;
  now(): Date;
  fault(error: unknown): void;
  /** Opens one beside, for what nobody waits for. Not there where records are written in a transaction that the caller has open. */
  readonly beside?: WriterPorts['inOrganisation'];
}

/** One commit's view: everything loaded under the locks, with what this commit has done so far on top. */
interface Session {
  readonly client: ClientBase;
  readonly organisation: string;
  readonly heads: ReadonlyMap<string, Head>;
  readonly views: ReadonlyMap<string, View>;
  readonly known: Map<string, Known>;
  readonly outcomes: ReadonlyMap<string, unknown>;
  readonly chains: Map<string, Chain>;
  readonly signatures: Signatures;
  /** Of the devices that entries from outside any device name, those that were ever enrolled here. */
  readonly devices: ReadonlySet<string>;
  /** Of the books that entries name, those that there are. */
  readonly named: ReadonlyMap<string, string>;
  /** Of the ids that entries come after, those that were refused, now or in an earlier sending; what was recorded since is known. */
  readonly refusedIds: Set<string>;
  /** Where look-ups upstream may end. */
  readonly cut: ClearCut;
  readonly forgetting: Forgetting;
  /** The rows that this commit wrote, and those that they took the place of. */
  readonly rows: { readonly after: Change[]; readonly before: Change[] };
  /** Which chain wrote a row in this commit, so that no other does. */
  readonly writers: Map<string, string>;
}

/** The one door: every record of every book is written here and nowhere else. */
export class LedgerWriter {
  readonly lanes = new Map<string, Lane<Job, Result>>();
  private readonly settleAgain = new Map<string, number>();
  private readonly watching: Watching | null;

  constructor(private readonly ports: WriterPorts) {
    const { beside } = ports;
    this.watching = beside ? new Watching({ inOrganisation: beside, fault: ports.fault }) : null;
  }

  /** Waits for what it still does beside the records, and begins no more of it. */
  async end(): Promise<void> {
    await this.watching?.end();
  }

  /** Records what it can of these, one result each in the same order. Parsed before any lock; judged and stored under the book's. */
  record(book: BookRef, asker: Asker, raw: readonly unknown[]): Promise<Result[]> {
    const { organisation } = book;
    const lane =
      this.lanes.get(organisation) ??
      new Lane<Job, Result>(
        (jobs) => this.commit(organisation, jobs),
        (job, error) => this.failed(job, error),
      );
    this.lanes.set(organisation, lane);
    return lane.add(raw.map((one) => jobOf(one, asker, book)));
  }

  private async commit(organisation: string, jobs: readonly Job[]): Promise<Result[]> {
    const now = this.ports.now();
    const cut = new ClearCut(
      jobs.reduce((first, j) => (j.read.ok && j.read.at < first ? j.read.at : first), now.toISOString()),
      now,
    );
    const results = await this.ports.inOrganisation(organisation, (client) => this.inOne(client, organisation, jobs, cut));
    if (cut.isWorthSettling && now.getTime() >= (this.settleAgain.get(organisation) ?? 0)) await this.settle(organisation, cut.walked, now);
    this.watching?.letGo(organisation);
    return results;
  }

  /** Notes what is clear of the lots that a commit had to follow; where there is nothing to note, it is not tried again for a while. */
  private async settle(organisation: string, lots: ReadonlySet<string>, now: Date): Promise<void> {
    const noted = await this.ports
      .inOrganisation(organisation, (client) => noteClear(client, organisation, [...lots], now))
      .catch((error: unknown) => {
        this.ports.fault(error);
        return 0;
      });
    if (noted === 0) this.settleAgain.set(organisation, now.getTime() + settleAgainMs);
  }

  private async inOne(client: ClientBase, organisation: string, jobs: readonly Job[], cut: ClearCut): Promise<Result[]> {
    const books = [...new Map(jobs.map((j) => [j.book.id, j.book])).values()];
    const views = new Map(books.map((book) => [book.id, { book, work: new WorkingSet() }]));
    const doers = doersOf(jobs);
    const asking = [...views.values()].map((v) => ({
      ...v,
      needs: [...doers, ...jobs.flatMap((j) => (j.read.ok && j.book.id === v.book.id ? j.read.needs : []))],
    }));
    // One round trip; the server takes them in this order, each statement seeing what the last holder of the locks committed.
    const [heads, known, chains, signatures, devices, named] = await Promise.all([
      Head.lock(client, organisation, books, () => this.ports.now()),
      loadKnown(client, organisation, jobs),
      loadChains(client, organisation, jobs),
      loadSignatures(client, organisation, jobs),
      loadDevices(client, organisation, jobs),
      booksNamed(client, organisation, jobs),
      loadNeeds(client, organisation, asking, cut),
    ]);
    const refusedIds = await refusedBefore(client, organisation, jobs, known);
    const again = jobs.flatMap((j) => (j.read.ok && known.has(j.read.envelope.id) ? [j.read.envelope.id] : []));
    const outcomes = again.length > 0 ? await outcomesOf(client, organisation, again) : new Map<string, unknown>();
    const session: Session = {
      client,
      organisation,
      heads,
      views,
      known,
      outcomes,
      chains,
      signatures,
      devices,
      named,
      refusedIds,
      cut,
      forgetting: new Forgetting(client, organisation),
      rows: { after: [], before: [] },
      writers: new Map(),
    };
    const results: Result[] = [];
    for (const job of jobs) results.push(await this.one(session, job));
    const spoken = watchedBy(session.rows.after, session.rows.before);
    await allInOrder([
      session.forgetting.now(),
      Head.save(client, organisation, heads.values()),
      saveDirty(
        client,
        organisation,
        [...views.values()].map((v) => ({ book: v.book.id, dirty: v.work.dirty() })),
      ),
      saveSignatures(client, organisation, signatures),
      keepSetAside(client, jobs, results, known, this.ports.now().toISOString()),
      // after the rows: which lots belong to what they name follows from them
      noteHere(client, organisation, spoken),
      watch(client, organisation, spoken).then((count) => this.watching?.note(organisation, count, spoken)),
    ]);
    return results;
  }

  /** One entry that the database would not take, or that would have written over another's row: refused, and kept like every other. */
  private async failed(job: Job, error: unknown): Promise<Result> {
    if (!isOfTheData(error)) throw error;
    const results: [Result] = [refused(job.id, error instanceof RowTaken ? refuse('id-reused', 'id') : refuse('fault'))];
    if (!(error instanceof RowTaken)) this.ports.fault(error);
    await this.ports.inOrganisation(job.book.organisation, (client) =>
      keepSetAside(client, [job], results, new Map(), this.ports.now().toISOString()),
    );
    return results[0];
  }

  private async one(session: Session, job: Job): Promise<Result> {
    let result: Result | Refused;
    try {
      result = job.read.ok ? await this.judge(session, job) : job.read;
    } catch (error) {
      this.ports.fault(error);
      result = refuse('fault');
    }
    if (!('ok' in result)) return result;
    // A fault is the service's own: the same is sent again, and what comes after it waits.
    if (job.id !== null && result.problem !== 'fault') session.refusedIds.add(job.id);
    return refused(job.id ?? idOf(job.raw), result);
  }

  private async judge(session: Session, job: Job): Promise<Result | Refused> {
    const { read, input, book } = job;
    const [head, work] = [session.heads.get(book.id), session.views.get(book.id)?.work];
    if (!read.ok || !input || !head || !work) return refuse('malformed');
    const { id, after = [], kind, corrects } = read.envelope;
    const before = session.known.get(id);
    if (before)
      return before.hash.equals(input.hash)
        ? { as: 'already-recorded', id, receipt: before.receipt, outcome: before.outcome ?? session.outcomes.get(id) ?? null }
        : refuse('id-reused', 'id');
    const people = [...session.views.values()].map((v) => v.work);
    const stop = mayRecord(head, job) ?? senderProblem(job, people, session.devices);
    if (stop) return stop;
    const stray = read.books.find(({ id: of, type }) => (type === 'site' ? session.named.get(of) !== 'site' : !session.named.has(of)));
    if (stray) return refuse('unknown-site', stray.field);
    if (after.includes(id)) return refuse('malformed', 'after', 'records other than this one');
    if (after.some((a) => session.refusedIds.has(a) && !session.known.has(a))) return refuse('depends-on-refused', 'after');
    const waitingFor = after.filter((a) => !session.known.has(a));
    if (waitingFor.length > 0) return { as: 'waiting', id, waitingFor };

    const signed = useSignature(session.signatures, job, input.hash, head.now);
    if ('ok' in signed) return signed;
    const stamp: Stamp = { ...head.stamp(job), ...(signed.signature ? { signature: signed.signature } : {}) };
    const chain = corrects === undefined ? undefined : session.chains.get(corrects);
    const wrong = corrects === undefined ? undefined : chainProblem(job, chain, kind);
    if (wrong) return wrong;

    for (let more = work.missing(read.then(work, stamp)); more.length > 0; more = work.missing(read.then(work, stamp)))
      await allInOrder([
        ...(more.some(isFollowed) ? [session.forgetting.now()] : []),
        loadNeeds(session.client, session.organisation, [{ book, work, needs: more }], session.cut),
      ]);
    const previous = chain?.kind === kind ? chain.content : undefined;
    const d = read.decide(work, stamp, previous);
    if (!d.ok) return d;
    const rowsBefore = chain?.content && !chain.withdrawn ? chain.content.read.rows(chain.content.outcome, chain.content.stamp) : [];
    const rows = read.rows(d.outcome, stamp);
    if (!ownsRows(session.writers, rows, corrects ?? id)) return refuse('id-reused', 'id');
    work.apply({ entry: id, seq: stamp.seq }, rows, rowsBefore, chain?.content && originOf(chain.content));
    session.rows.after.push(...rows);
    session.rows.before.push(...rowsBefore);
    await forget(session, rows, rowsBefore);
    session.refusedIds.delete(id);
    signed.use?.(id);
    const receipt = head.append(job, input, id, corrects ?? id, d.outcome, stamp);
    session.known.set(id, { hash: input.hash, receipt, outcome: d.outcome });
    extendChain(session.chains, corrects ?? id, kind, book.id, { read, outcome: d.outcome, stamp });
    return { as: 'recorded', id, receipt, outcome: d.outcome };
  }
}

/** What this entry spoke about is not clear any more; what comes after it in the same commit looks again. */
async function forget({ forgetting, views }: Session, rows: readonly Change[], before: readonly Change[]): Promise<void> {
  forgetting.add(touchedBy(rows, before));
  const ended = [...views.values()].filter((v) => v.work.hasEnds);
  if (ended.length > 0 && (await forgetting.now())) for (const { work } of ended) work.forgetEnds();
}

function jobOf(raw: unknown, asker: Asker, book: BookRef): Job {
  const kind = kindOf(raw);
  const read = kind?.read(raw) ?? refuse('unknown-kind', 'kind');
  const id = read.ok ? read.envelope.id : (z.uuid().safeParse(idOf(raw)).data?.toLowerCase() ?? null);
  if (!read.ok) return { book, raw, id, asker, read, kind };
  const input = inputOf(read.envelope);
  return input
    ? { book, raw, id, asker, read, kind, input }
    : { book, raw, id, asker, read: refuse('malformed', '', 'text without NUL characters or unpaired surrogates'), kind };
}

const idOf = (raw: unknown): string | null =>
  typeof raw === 'object' && raw !== null && 'id' in raw && typeof raw.id === 'string' ? raw.id.slice(0, 60) : null;

const refused = (id: string | null, { problem, field, acceptable }: Refused): Result => ({
  as: 'refused',
  id,
  problem,
  ...(field === undefined ? {} : { field }),
  ...(acceptable === undefined ? {} : { acceptable }),
});

/** What may be done by an entry of this kind. A signature that does not fit is refused by itself: here it is enough that the kind wants one. */
const mayDo = (asker: Asker, { signed }: AnyKind): Asker['permissions'] => (signed === null ? asker.permissions : asker.whenSigned);

/** What a person typed and has still to come is a slip to be put right; a device whose clock is wrong loses nothing by it (`happened`). */
function mayRecord(head: Head, { book, read, kind, asker }: Job): Refused | undefined {
  if (!read.ok || kind === undefined) return refuse('malformed');
  if (kind.book !== 'either' && kind.book !== book.type) return refuse('wrong-book', 'kind', `a record of the ${book.type}`);
  if (!mayDo(asker, kind).has(kind.permission)) return refuse('not-permitted', 'kind');
  const ahead = isAhead(read.at, head.now) && isAhead(happened(read.envelope, head.now).at, head.now);
  return ahead ? refuse('in-the-future', 'occurredAt.at', 'now or earlier') : undefined;
}

/** Notes the rows as this chain's, unless another chain wrote one of them in this commit. */
function ownsRows(writers: Map<string, string>, rows: readonly Change[], root: string): boolean {
  const keys = rows.map((row) => `${row.in} ${row.id}`);
  if (keys.some((key) => (writers.get(key) ?? root) !== root)) return false;
  for (const key of keys) writers.set(key, root);
  return true;
}

/** To withdraw an entry a person must be allowed to make it: a baker does not withdraw a signed plan. */
function chainProblem({ book, asker, kind: sent }: Job, chain: Chain | undefined, kind: string): Refused | undefined {
  if (!chain || chain.book !== book.id) return refuse('nothing-to-correct', 'corrects');
  const own = kindOf({ kind: chain.kind });
  if (!own || !sent || !mayDo(asker, sent).has(own.permission)) return refuse('not-permitted', 'corrects');
  if (kind === 'entry-withdrawn' && own.type === 'decision') return refuse('decision-stands', 'corrects');
  if (kind !== chain.kind && kind !== 'entry-withdrawn') return refuse('correction-of-another-kind', 'kind', chain.kind);
  return undefined;
}
