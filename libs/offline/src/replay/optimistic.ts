import { kindOf, workingSetOf, type Change, type ReadEntry, type Snapshot, type State, type WorkingSet } from '@bakehouse/records';
import { refuse, type Refused, type Stamp } from '@bakehouse/kernel';
import type { Fate, SavedEntry } from '../store/saved-entry.js';
import { overlay } from './overlay.js';

/** The book that is projected: who it belongs to, where its day is, and how many entries the snapshot holds of it. */
export interface ProjectedBook {
  readonly organisation: string;
  readonly id: string;
  readonly zone: string;
  readonly size: number;
}

export type ProjectedVerdict = { readonly ok: true; readonly outcome: unknown; readonly by: 'device' | 'server' } | Refused;

interface Link {
  readonly read: ReadEntry;
  readonly outcome: unknown;
  readonly stamp: Stamp;
  readonly kind: string;
  readonly withdrawn: boolean;
}

/**
 * A snapshot with this device's own entries replayed on top, through the kinds' own `read`, `decide` and `rows`: what the server will say, said now.
 * What the snapshot shows already is only remembered, so that it can be corrected; what was refused is left out.
 */
export class Optimistic {
  readonly verdicts = new Map<string, ProjectedVerdict>();
  /** Row → the pending entry that makes it. */
  readonly madeBy = new Map<string, string>();
  private readonly work: WorkingSet;
  private readonly chains = new Map<string, Link>();
  /** What was replayed so far, and with which fate. */
  private readonly replayed: string[] = [];
  private ahead = 0;

  /** @param reads entries read before, by id: an entry never changes once it is saved, so that reading it once is enough. */
  constructor(
    private readonly base: Snapshot,
    private readonly book: ProjectedBook,
    entries: readonly SavedEntry[],
    private readonly reads = new Map<string, ReadEntry | Refused>(),
  ) {
    this.work = workingSetOf(base);
    this.goOn(entries);
  }

  /** Replays what was saved since; false, and nothing done, where an earlier one has another fate by now: then all is to be replayed anew. */
  goOn(entries: readonly SavedEntry[]): boolean {
    const mine = entries.filter((e) => e.book === this.book.id || e.book === this.book.organisation);
    const keys = mine.map(keyOf);
    if (this.replayed.some((key, i) => keys[i] !== key)) return false;
    for (const saved of mine.slice(this.replayed.length)) this.add(saved);
    this.replayed.push(...keys.slice(this.replayed.length));
    return true;
  }

  get state(): State {
    return this.work;
  }
  /** The rows as they stand with everything that this device saved. */
  snapshot(): Snapshot {
    return overlay(this.base, this.work.dirty());
  }

  /** Replays one more entry, the next one in the order of the device. */
  add(saved: SavedEntry): void {
    const { fate } = saved;
    if (fate.as === 'refused') return;
    const read = this.reads.get(saved.id) ?? kindOf(saved.entry)?.read(saved.entry) ?? refuse('unknown-kind', 'kind');
    this.reads.set(saved.id, read);
    if (!read.ok) {
      this.verdicts.set(saved.id, read);
      return;
    }
    const chain = this.chainOf(read);
    const stamp =
      fate.as === 'recorded' ? { ...this.stamp(saved.typedBy, fate.recordedAt), seq: fate.seq } : this.stamp(saved.typedBy, saved.savedAt);
    const found = this.foundFor(read, fate, stamp, chain);
    this.verdicts.set(saved.id, found.verdict);
    if (!found.rows || !found.verdict.ok) return;
    this.follow(saved.id, read, { outcome: found.verdict.outcome, rows: found.rows }, stamp, chain, fate.as !== 'recorded' || !fate.shown);
    if (fate.as === 'recorded') return;
    for (const { id } of found.rows) this.madeBy.set(id, saved.id);
    this.madeBy.set(saved.id, saved.id);
  }

  /** What was said to an entry, or will be, and its rows. An outcome of a newer service that this device cannot read is worked out here instead. */
  private foundFor(
    read: ReadEntry,
    fate: Fate,
    stamp: Stamp,
    chain: Link | undefined,
  ): { readonly verdict: ProjectedVerdict; readonly rows: readonly Change[] | undefined } {
    if (fate.as === 'recorded') {
      const rows = rowsOf(read, fate.outcome, stamp);
      if (rows) return { verdict: { ok: true, outcome: fate.outcome, by: 'server' }, rows };
    }
    const own = this.decided(read, stamp, chain);
    return own.ok ? { verdict: { ...own, by: 'device' }, rows: rowsOf(read, own.outcome, stamp) } : { verdict: own, rows: undefined };
  }

  /** What an entry would meet, were it saved now. Changes nothing. */
  judge(raw: unknown, typedBy: string, at: string): { readonly ok: true; readonly outcome: unknown } | Refused {
    const read = kindOf(raw)?.read(raw) ?? refuse('unknown-kind', 'kind');
    return read.ok ? this.decided(read, this.stamp(typedBy, at), this.chainOf(read)) : read;
  }

  private decided(read: ReadEntry, stamp: Stamp, chain: Link | undefined): { readonly ok: true; readonly outcome: unknown } | Refused {
    const { corrects, kind } = read.envelope;
    if (corrects !== undefined && chain && kind !== chain.kind && kind !== 'entry-withdrawn')
      return refuse('correction-of-another-kind', 'kind', chain.kind);
    const previous = chain?.kind === kind ? chain : undefined;
    try {
      return read.decide(this.work, stamp, previous);
    } catch {
      return refuse('fault'); // one entry that this version falls over must not take the others off the screen
    }
  }

  private follow(
    id: string,
    read: ReadEntry,
    made: { readonly outcome: unknown; readonly rows: readonly Change[] },
    stamp: Stamp,
    chain: Link | undefined,
    apply: boolean,
  ): void {
    const { corrects, kind } = read.envelope;
    if (apply)
      this.work.apply(
        { entry: id, seq: stamp.seq },
        made.rows,
        chain && !chain.withdrawn ? (rowsOf(chain.read, chain.outcome, chain.stamp) ?? []) : [],
      );
    if (kind === 'entry-withdrawn' && corrects !== undefined) {
      if (chain) this.chains.set(corrects, { ...chain, withdrawn: true });
    } else this.chains.set(corrects ?? id, { read, outcome: made.outcome, stamp, kind, withdrawn: false });
  }

  private chainOf(read: ReadEntry): Link | undefined {
    return read.envelope.corrects === undefined ? undefined : this.chains.get(read.envelope.corrects);
  }

  private stamp(person: string, recordedAt: string, book = this.book.id): Stamp {
    this.ahead += 1;
    return { recordedAt, seq: this.book.size + this.ahead, organisation: this.book.organisation, book, person, zone: this.book.zone };
  }
}

/** To be sent and waiting are projected alike. */
const keyOf = ({ seq, fate }: SavedEntry): string =>
  `${seq} ${fate.as === 'recorded' ? `recorded ${String(fate.shown)}` : fate.as === 'refused' ? 'refused' : 'pending'}`;

/** The rows of an outcome, or undefined where this version cannot read it. */
function rowsOf(read: ReadEntry, outcome: unknown, stamp: Stamp): readonly Change[] | undefined {
  try {
    return read.rows(outcome, stamp);
  } catch {
    return undefined;
  }
}

/** The rows of a snapshot with what waits on this device on top, and what each of these will meet. */
export function project(base: Snapshot, book: ProjectedBook, entries: readonly SavedEntry[]): Optimistic {
  return new Optimistic(base, book, entries);
}
