import type { Answer, Door, DoorReply } from '../../libs/offline/src/send/door.js';

type Wire = Record<string, unknown> & { id: string; after?: readonly string[] };
/** What happens to one request: it arrives and is answered, its answer is lost, it never arrives, the service is busy, or nobody is signed on. */
export type Weather = 'fine' | 'reply-lost' | 'never-arrives' | 'busy' | 'signed-off';

/** A door in memory that keeps to the rules of the real one: known ids first, another input under a known id refused, waiting on what it does not know. */
export class FakeDoor implements Door {
  readonly recorded = new Map<string, string>();
  /** Every entry that was ever recorded, in order: one that is there twice was recorded twice. */
  readonly ledger: string[] = [];
  weather: Weather = 'fine';
  /** Ids that it refuses for good. */
  readonly refuses = new Set<string>();
  /** What each request held. */
  readonly requests: { readonly typedBy: string; readonly ids: readonly string[] }[] = [];

  send(to: { readonly typedBy: string }, entries: readonly unknown[]): Promise<DoorReply> {
    const wire = entries as readonly Wire[]; // what the sender wrote
    this.requests.push({ typedBy: to.typedBy, ids: wire.map((e) => e.id) });
    if (this.weather === 'never-arrives') return Promise.resolve({ as: 'unreachable' });
    if (this.weather === 'busy') return Promise.resolve({ as: 'unreachable', afterMs: 7_000 });
    if (this.weather === 'signed-off') return Promise.resolve({ as: 'not-signed-on' });
    const answers = wire.map((e) => this.one(e));
    return Promise.resolve(this.weather === 'reply-lost' ? { as: 'unreachable' } : { as: 'answered', answers });
  }

  private one({ send: _send, ...input }: Wire): Answer {
    const { id, after = [] } = input;
    const bytes = JSON.stringify(input);
    const before = this.recorded.get(id);
    const receipt = { book: 'site', seq: this.ledger.indexOf(id), recordedAt: '2026-11-25T04:00:00.000Z' };
    if (before !== undefined)
      return before === bytes
        ? { as: 'already-recorded', id, receipt, outcome: {} }
        : { as: 'refused', id, problem: 'id-reused', title: 't', detail: 'd' };
    if (this.refuses.has(id)) return { as: 'refused', id, problem: 'not-permitted', title: 'Not permitted', detail: 'Ask somebody.' };
    const waitingFor = after.filter((a) => !this.recorded.has(a));
    if (waitingFor.length > 0) return { as: 'waiting', id, waitingFor };
    this.recorded.set(id, bytes);
    this.ledger.push(id);
    return { as: 'recorded', id, receipt: { ...receipt, seq: this.ledger.length - 1 }, outcome: {} };
  }
}
