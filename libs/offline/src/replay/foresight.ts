import { kindOf, refuse, workingSetOf, type Change, type ReadEntry, type Refused, type Snapshot, type Stamp, type State, type WorkingSet } from '@bakehouse/domain';
import type { SavedEntry } from '../store/saved-entry.js';
import { overlay } from './overlay.js';

/** The book that is foreseen: who it belongs to, where its day is, and how many entries the snapshot holds of it. */
export interface ForeseenBook { readonly organisation: string; readonly id: string; readonly zone: string; readonly size: number }

export type ForeseenVerdict = { readonly ok: true; readonly outcome: unknown; readonly by: 'device' | 'server' } | Refused;

interface Link { readonly read: ReadEntry; readonly outcome: unknown; readonly stamp: Stamp; readonly kind: string; readonly withdrawn: boolean }

/**
 * A snapshot with this device's own entries replayed on top, through the kinds' own `read`, `decide` and `rows`: what the server will say, said now.
 * What the snapshot shows already is only remembered, so that it can be corrected; what was refused is left out.
 */
export class Foresight {
  readonly verdicts = new Map<string, ForeseenVerdict>();
  /** Row → the pending entry that makes it. */
  readonly madeBy = new Map<string, string>();
  private readonly work: WorkingSet;
  private readonly chains = new Map<string, Link>();
  private ahead = 0;

  constructor(private readonly base: Snapshot, private readonly book: ForeseenBook, entries: readonly SavedEntry[]) {
    this.work = workingSetOf(base);
    for (const saved of entries) if (saved.book === book.id) this.add(saved);
  }

  get state(): State { return this.work; }
  /** The rows as they stand with everything that this device saved. */
  snapshot(): Snapshot { return overlay(this.base, this.work.dirty()); }

  /** Replays one more entry, the next one in the order of the device. */
  add(saved: SavedEntry): void {
    const { fate } = saved;
    if (fate.as === 'refused') return;
    const read = kindOf(saved.entry)?.read(saved.entry) ?? refuse('unknown-kind', 'kind');
    if (!read.ok) {
      this.verdicts.set(saved.id, read);
      return;
    }
    const chain = this.chainOf(read);
    if (fate.as === 'recorded') {
      const stamp: Stamp = { ...this.stamp(saved.typedBy, fate.recordedAt), seq: fate.seq };
      this.verdicts.set(saved.id, { ok: true, outcome: fate.outcome, by: 'server' });
      this.follow(saved.id, read, fate.outcome, stamp, chain, !fate.shown);
      return;
    }
    const stamp = this.stamp(saved.typedBy, saved.savedAt);
    const found = this.decided(read, stamp, chain);
    this.verdicts.set(saved.id, found.ok ? { ...found, by: 'device' } : found);
    if (!found.ok) return;
    for (const { id } of this.follow(saved.id, read, found.outcome, stamp, chain, true)) this.madeBy.set(id, saved.id);
    this.madeBy.set(saved.id, saved.id);
  }

  /** What an entry would meet, were it saved now. Changes nothing. */
  judge(raw: unknown, typedBy: string, at: string): { readonly ok: true; readonly outcome: unknown } | Refused {
    const read = kindOf(raw)?.read(raw) ?? refuse('unknown-kind', 'kind');
    return read.ok ? this.decided(read, this.stamp(typedBy, at), this.chainOf(read)) : read;
  }

  private decided(read: ReadEntry, stamp: Stamp, chain: Link | undefined): { readonly ok: true; readonly outcome: unknown } | Refused {
    const { corrects, kind } = read.envelope;
    if (corrects !== undefined && chain && kind !== chain.kind && kind !== 'entry-withdrawn') return refuse('correction-of-another-kind', 'kind', chain.kind);
    const previous = chain?.kind === kind ? chain : undefined;
    return read.decide(this.work, stamp, previous?.read, previous?.outcome);
  }

  private follow(id: string, read: ReadEntry, outcome: unknown, stamp: Stamp, chain: Link | undefined, apply: boolean): readonly Change[] {
    const after = read.rows(outcome, stamp);
    if (apply) this.work.apply({ entry: id, seq: stamp.seq }, after, chain && !chain.withdrawn ? chain.read.rows(chain.outcome, chain.stamp) : []);
    const { corrects, kind } = read.envelope;
    if (kind === 'entry-withdrawn' && corrects !== undefined) {
      if (chain) this.chains.set(corrects, { ...chain, withdrawn: true });
    } else this.chains.set(corrects ?? id, { read, outcome, stamp, kind, withdrawn: false });
    return after;
  }

  private chainOf(read: ReadEntry): Link | undefined {
    return read.envelope.corrects === undefined ? undefined : this.chains.get(read.envelope.corrects);
  }

  private stamp(person: string, recordedAt: string): Stamp {
    this.ahead += 1;
    return { recordedAt, seq: this.book.size + this.ahead, organisation: this.book.organisation, book: this.book.id, person, zone: this.book.zone };
  }
}

/** The rows of a snapshot with what waits on this device on top, and what each of these will meet. */
export function foresee(base: Snapshot, book: ForeseenBook, entries: readonly SavedEntry[]): Foresight {
  return new Foresight(base, book, entries);
}
