import type { Snapshot } from '@bakehouse/records';
import { dependsOn, Optimistic, type SavedEntry } from '@bakehouse/offline';
import type { Draft, House } from './people.js';

type Sent = Record<string, unknown> & { id: string };
export interface Typed {
  readonly entry: Sent;
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
  record(
    kind: string,
    payload: unknown,
    told: Omit<Draft, 'kind' | 'payload'> & { at: string },
  ): { id: string; outcome: Record<string, unknown> } {
    const { entry, verdict } = this.judged(kind, payload, told);
    if (!verdict.ok) throw new Error(`${kind} was refused on the tablet: ${JSON.stringify(verdict)}`);
    this.optimistic.add(this.saved(entry));
    this.typed.push({ entry, outcome: verdict.outcome });
    return { id: entry.id, outcome: verdict.outcome as Record<string, unknown> }; // every kind's outcome is an object
  }

  /** The problem that the tablet tells at once; nothing is saved. */
  refused(kind: string, payload: unknown, told: Omit<Draft, 'kind' | 'payload'> & { at: string }): string {
    const { verdict } = this.judged(kind, payload, told);
    if (verdict.ok) throw new Error(`${kind} was not refused on the tablet`);
    return verdict.problem;
  }

  private judged(kind: string, payload: unknown, told: Omit<Draft, 'kind' | 'payload'> & { at: string }) {
    const after = [...new Set([...dependsOn(payload, told.corrects, this.optimistic.madeBy), ...(told.after ?? [])])];
    const entry = this.house.entry({ kind, payload, ...told, after });
    return { entry, verdict: this.optimistic.judge(entry, this.person, new Date(told.at).toISOString()) };
  }

  private saved(entry: Sent): SavedEntry {
    this.seq += 1;
    return {
      seq: this.seq,
      id: entry.id,
      book: this.house.site,
      bookType: 'site',
      entry,
      typedBy: this.person,
      savedAt: this.house.t.clock.now().toISOString(),
      signature: null,
      attempts: 0,
      fate: { as: 'to-send' },
    };
  }
}
