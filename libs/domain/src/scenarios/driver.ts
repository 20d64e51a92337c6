import type { Rows } from '../collections.js';
import type { Stamp } from '../kernel/entry.js';
import type { ReadEntry } from '../kernel/kind.js';
import type { ProblemCode, Refused } from '../kernel/problems.js';
import { collectionNames, snapshotOf, type Snapshot } from '../kernel/snapshot.js';
import type { Change, CollectionName, Need, Row } from '../kernel/state.js';
import { WorkingSet } from '../kernel/working-set.js';
import { kindOf } from '../kinds.js';

/** Ids that read in a test: `uuid(7)` ends in 007. */
export const uuid = (n: number): string => `0190a6d0-7b3c-7000-8000-${n.toString(16).padStart(12, '0')}`;

export interface Told {
  at: string;
  words?: Record<string, string>;
  person?: string;
  doneBy?: string;
  corrects?: string;
  id?: string;
}
interface Stored {
  readonly raw: unknown;
  readonly outcome: unknown;
  readonly stamp: Stamp;
}
interface Link {
  read: Extract<ReadEntry, { ok: true }>;
  outcome: unknown;
  stamp: Stamp;
  kind: string;
  withdrawn: boolean;
}

/**
 * One book in memory. Every entry is decided twice: against everything, as a tablet does, and against nothing but what its kind names as needs, as the
 * server does. Both must agree, or the driver throws.
 */
export class Book {
  private readonly work = new WorkingSet(true);
  private readonly rows = new Map<CollectionName, Map<string, Record<string, unknown> & { id: string }>>();
  private readonly givens: Change[] = [];
  private readonly entries: Stored[] = [];
  private readonly chains = new Map<string, Link>();
  private seq = 0;

  constructor(
    private readonly person = uuid(1),
    private readonly zone = 'Europe/London',
  ) {}

  /** Puts a row there without an entry, over one that is there: what the scenario takes for granted. */
  given<C extends CollectionName>(collection: C, id: string, row: Rows[C]): void {
    const change = { in: collection, id, row } as unknown as Change; // the signature ties the row to its collection; a union of changes cannot say so
    this.givens.push(change);
    this.work.apply({ entry: id, seq: 0 }, [change]);
    this.takeChanges();
  }

  /** Records an entry and gives its id and outcome. Throws where it is refused. */
  record(kind: string, payload: unknown, told: Told): { id: string; outcome: Record<string, unknown> } {
    const { result, raw, id, stamp } = this.decide(kind, payload, told);
    if (!result.ok) throw new Error(`${kind} was refused: ${JSON.stringify(result)}`);
    const { read, outcome } = result;
    const root = told.corrects ?? id;
    const chain = this.chains.get(root);
    const before = chain && !chain.withdrawn ? chain.read.rows(chain.outcome, chain.stamp) : [];
    this.work.apply({ entry: id, seq: stamp.seq }, read.rows(outcome, stamp), before);
    if (kind === 'entry-withdrawn' && chain) chain.withdrawn = true;
    else this.chains.set(root, { read, outcome, stamp, kind, withdrawn: false });
    this.entries.push({ raw, outcome, stamp });
    this.takeChanges();
    return { id, outcome: outcome as Record<string, unknown> }; // an outcome is a JSON object by every kind's schema
  }

  /** The refusal that an entry meets; throws where it would be recorded. Nothing is kept of it. */
  refusal(kind: string, payload: unknown, told: Told): Refused & { problem: ProblemCode } {
    const { result } = this.decide(kind, payload, told);
    if (result.ok) throw new Error(`${kind} was not refused: ${JSON.stringify(result.outcome)}`);
    return result;
  }

  get<C extends CollectionName>(collection: C, id: string): Row<C> | undefined {
    return this.work.get(collection, id);
  }

  all<C extends CollectionName>(collection: C): Row<C>[] {
    return [...this.snapshot()[collection]];
  }

  snapshot(): Snapshot {
    const rows: Partial<Record<CollectionName, unknown[]>> = {};
    for (const name of collectionNames) rows[name] = [...this.shelf(name).values()];
    return snapshotOf(rows as Partial<Snapshot>); // the shelves hold what `given` and the kinds' rows put there
  }

  /** The rows of all entries made again from their stored bytes alone: equal to what is there, or a kind is not pure. */
  rebuilt(): Snapshot {
    const again = new Book(this.person, this.zone);
    again.work.apply({ entry: uuid(0), seq: 0 }, this.givens);
    for (const { raw, outcome, stamp } of JSON.parse(JSON.stringify(this.entries)) as Stored[]) again.replay(raw, outcome, stamp); // what we wrote above
    return again.snapshot();
  }

  private replay(raw: unknown, outcome: unknown, stamp: Stamp): void {
    const read = kindOf(raw)?.readStored(raw);
    if (!read?.ok) throw new Error('a stored entry cannot be read');
    const { id, corrects, kind } = read.envelope;
    const chain = this.chains.get(corrects ?? id);
    this.work.apply(
      { entry: id, seq: stamp.seq },
      read.rows(outcome, stamp),
      chain && !chain.withdrawn ? chain.read.rows(chain.outcome, chain.stamp) : [],
    );
    if (kind === 'entry-withdrawn' && chain) chain.withdrawn = true;
    else this.chains.set(corrects ?? id, { read, outcome, stamp, kind, withdrawn: false });
    this.takeChanges();
  }

  private decide(kind: string, payload: unknown, told: Told) {
    this.seq += 1;
    const id = told.id ?? uuid(0x100000 + this.seq);
    const words = told.words && Object.fromEntries(Object.entries(told.words).map(([key, text]) => [key, { text, salt: '00'.repeat(16) }]));
    const raw = {
      id,
      kind,
      version: 1,
      occurredAt: { at: told.at, precision: 'exact' },
      doneBy: told.doneBy ?? null,
      device: {
        id: null,
        seq: this.seq,
        clockErrorMs: null,
      },
      ...(told.corrects ? { corrects: told.corrects } : {}),
      ...(words ? { words } : {}),
      payload,
    };
    const person = told.person ?? this.person;
    const recordedAt = new Date(told.at).toISOString();
    const signed = kindOf(raw)?.signed ?? null;
    const stamp: Stamp = {
      recordedAt,
      seq: this.seq,
      organisation: uuid(2),
      book: uuid(3),
      person,
      zone: this.zone,
      ...(signed === null
        ? {}
        : {
            signature: { person, meaning: signed, at: recordedAt },
          }),
    };
    const read = kindOf(raw)?.read(raw);
    if (!read) throw new Error(`no kind ${kind}`);
    if (!read.ok) return { result: read, raw, id, stamp };
    const chain = told.corrects === undefined ? undefined : this.chains.get(told.corrects);
    const previous = chain?.kind === kind ? chain : undefined;
    const onDevice = read.decide(this.work, stamp, previous?.read, previous?.outcome);
    const onServer = read.decide(this.onlyNeeded(read), stamp, previous?.read, previous?.outcome);
    if (JSON.stringify(onDevice) !== JSON.stringify(onServer))
      throw new Error(`${kind}: the device and the server differ: ${JSON.stringify([onDevice, onServer])}`);
    return { result: onDevice.ok ? { ok: true as const, read, outcome: onDevice.outcome } : onDevice, raw, id, stamp };
  }

  private onlyNeeded(read: Extract<ReadEntry, { ok: true }>): WorkingSet {
    const narrow = new WorkingSet();
    const load = (needs: readonly Need[]): void => {
      for (const need of needs) {
        const rows = [...this.shelf(need.in).values()].filter((row) => ('id' in need ? row.id === need.id : row[need.by] === need.value));
        for (const row of rows) narrow.base(need.in, row);
      }
      narrow.loaded(needs);
    };
    load(read.needs);
    load(read.then(narrow));
    return narrow;
  }

  private takeChanges(): void {
    for (const [name, changes] of this.work.dirty()) {
      for (const [id, written] of changes) {
        if (written) this.shelf(name).set(id, { ...written.row, id });
        else this.shelf(name).delete(id);
      }
    }
  }

  private shelf(name: CollectionName): Map<string, Record<string, unknown> & { id: string }> {
    const shelf = this.rows.get(name) ?? new Map<string, Record<string, unknown> & { id: string }>();
    this.rows.set(name, shelf);
    return shelf;
  }
}
