import type { SentEnvelope } from '@bakehouse/kernel';
import { outcomeOf, type KindName, type OutcomeOf, type PayloadFor, type Snapshot } from '@bakehouse/records';
import { dependsOn, Optimistic, type SavedEntry } from '@bakehouse/offline';
import type { EntryOptions } from './entries.js';
import type { House } from './people.js';

type EntryAt = EntryOptions & { readonly at: string };
export interface Typed {
  readonly entry: SentEnvelope;
  readonly outcome: unknown;
}

/** A tablet without a network: it judges by the kinds themselves on top of the last rows that it got, and keeps what was typed. */
export class Offline {
  readonly typed: Typed[] = [];
  private readonly optimistic: Optimistic;
  private seq = 0;

  constructor(
    private readonly house: House,
    rows: Snapshot,
    private readonly person: string,
  ) {
    this.optimistic = new Optimistic(rows, { organisation: house.organisation, id: house.site, zone: 'Europe/London', size: 0 }, []);
  }

  get rows(): Snapshot {
    return this.optimistic.snapshot();
  }

  /** Saves it and says at once what comes of it. `after` names what it builds on without naming it in its payload. */
  record<K extends KindName>(kind: K, payload: PayloadFor<K>, options: EntryAt): { id: string; outcome: OutcomeOf<K> } {
    const { entry, verdict } = this.judged(kind, payload, options);
    if (!verdict.ok) throw new Error(`${kind} was refused on the tablet: ${JSON.stringify(verdict)}`);
    const outcome = outcomeOf(kind, verdict.outcome);
    if (outcome === undefined) throw new Error(`not an outcome of ${kind}: ${JSON.stringify(verdict.outcome)}`);
    this.optimistic.add(this.saved(entry, options.at));
    this.typed.push({ entry, outcome: verdict.outcome });
    return { id: entry.id, outcome };
  }

  /** The problem that the tablet tells at once; nothing is saved. */
  refused<K extends KindName>(kind: K, payload: PayloadFor<K>, options: EntryAt): string {
    const { verdict } = this.judged(kind, payload, options);
    if (verdict.ok) throw new Error(`${kind} was not refused on the tablet`);
    return verdict.problem;
  }

  private judged<K extends KindName>(kind: K, payload: PayloadFor<K>, options: EntryAt) {
    const after = [...new Set([...dependsOn(payload, options.corrects, this.optimistic.madeBy), ...(options.after ?? [])])];
    const entry = this.house.entry({ kind, payload, ...options, after });
    return { entry, verdict: this.optimistic.judge(entry, this.person, new Date(options.at).toISOString()) };
  }

  private saved(entry: SentEnvelope, at: string): SavedEntry {
    this.seq += 1;
    return {
      seq: this.seq,
      id: entry.id,
      book: this.house.site,
      bookType: 'site',
      entry,
      typedBy: this.person,
      savedAt: new Date(at).toISOString(),
      signature: null,
      attempts: 0,
      fate: { as: 'to-send' },
    };
  }
}
