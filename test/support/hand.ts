import { entryResults, type EntryResult } from '@bakehouse/contracts';
import type { SentEnvelope } from '@bakehouse/kernel';
import { outcomeOf, type KindName, type OutcomeOf, type PayloadFor } from '@bakehouse/records';
import type { AnyEntry, EntryOptions } from './entries.js';
import type { Caller, House } from './people.js';

export interface Recorded<K extends KindName> {
  readonly id: string;
  readonly outcome: OutcomeOf<K>;
  readonly seq: number;
}
type Refused = Extract<EntryResult, { as: 'refused' }>;

/** Somebody at one book's door. What they record is recorded, or the test fails; everything that went through is kept. */
export class Hand {
  readonly sent: SentEnvelope[] = [];

  constructor(
    readonly house: House,
    public caller: Caller,
    readonly site: string | null = house.site,
  ) {}

  /** Records it; what is signed is signed with the PIN of the person who records. */
  async record<K extends KindName>(kind: K, payload: PayloadFor<K>, options: EntryOptions = {}): Promise<Recorded<K>> {
    const [result] = await this.send([await this.caller.signed(this.house.entry({ kind, payload, ...options }))]);
    return accepted(kind, result);
  }

  /** The same of several in one sending; gives their ids. */
  async recordAll(given: readonly AnyEntry[]): Promise<string[]> {
    const entries = given.map((one) => this.house.rawEntry(one));
    this.sent.push(...entries);
    return this.caller.recordAll(this.path, entries);
  }

  /** The problem that an entry meets; fails where it is recorded. */
  refused<K extends KindName>(kind: K, payload: PayloadFor<K>, options: EntryOptions = {}): Promise<Refused> {
    return this.refusedRaw(kind, payload, options);
  }

  /** The same of a payload that is wrong on purpose. */
  async refusedRaw(kind: string, payload: unknown, options: EntryOptions = {}): Promise<Refused> {
    const [result] = await this.send([this.house.rawEntry({ kind, payload, ...options })]);
    if (result?.as !== 'refused') throw new Error(`not refused: ${JSON.stringify(result)}`);
    return result;
  }

  async send(entries: readonly SentEnvelope[]): Promise<EntryResult[]> {
    this.sent.push(...entries);
    const { body } = await this.caller.post(this.path, entries).expect(200);
    return entryResults.parse(body);
  }

  private get path(): string {
    return this.site === null ? '/organisation/entries' : `/sites/${this.site}/entries`;
  }
}

function accepted<K extends KindName>(kind: K, result: EntryResult | undefined): Recorded<K> {
  if (result?.as !== 'recorded' && result?.as !== 'already-recorded') throw new Error(`not recorded: ${JSON.stringify(result)}`);
  const outcome = outcomeOf(kind, result.outcome);
  if (outcome === undefined) throw new Error(`not an outcome of ${kind}: ${JSON.stringify(result.outcome)}`);
  return { id: result.id, seq: result.receipt.seq, outcome };
}
