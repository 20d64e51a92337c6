import type { EntryResult } from '@bakehouse/contracts';
import type { Caller, Draft, House } from './people.js';

type Sent = Record<string, unknown> & { id: string };
type Accepted = Extract<EntryResult, { as: 'recorded' | 'already-recorded' }>;
type Told = Omit<Draft, 'kind' | 'payload'>;

/** Somebody at one book's door. What they record is recorded, or the test fails; everything that went through is kept. */
export class Hand {
  readonly sent: Sent[] = [];

  constructor(
    readonly house: House,
    public caller: Caller,
    readonly site: string | null = house.site,
  ) {}

  async record(kind: string, payload: unknown, told: Told = {}): Promise<{ id: string; outcome: Record<string, unknown>; seq: number }> {
    const [result] = await this.send([this.house.entry({ kind, payload, ...told })]);
    return accepted(result);
  }

  /** The same for what is signed: the PIN is turned into a signature first. */
  async sign(kind: string, payload: unknown, told: Told = {}): Promise<{ id: string; outcome: Record<string, unknown>; seq: number }> {
    const entry = this.house.entry({ kind, payload, ...told });
    const { body } = await this.caller.post('/signatures', { pin: this.caller.pin, entry }).expect(200);
    const [result] = await this.send([{ ...entry, send: { signature: body.signature } }]);
    return accepted(result);
  }

  /** The problem that an entry meets; fails where it is recorded. */
  async refused(kind: string, payload: unknown, told: Told = {}): Promise<Extract<EntryResult, { as: 'refused' }>> {
    const [result] = await this.send([this.house.entry({ kind, payload, ...told })]);
    if (result?.as !== 'refused') throw new Error(`not refused: ${JSON.stringify(result)}`);
    return result;
  }

  async send(entries: readonly Sent[]): Promise<EntryResult[]> {
    this.sent.push(...entries);
    const { body } = await this.caller
      .post(this.site === null ? '/organisation/entries' : `/sites/${this.site}/entries`, entries)
      .expect(200);
    return body as EntryResult[]; // the route's contract, held to by tests of the API's description
  }
}

function accepted(result: EntryResult | undefined): { id: string; outcome: Record<string, unknown>; seq: number } {
  if (result?.as !== 'recorded' && result?.as !== 'already-recorded') throw new Error(`not recorded: ${JSON.stringify(result)}`);
  const { id, outcome, receipt }: Accepted = result;
  return { id, seq: receipt.seq, outcome: outcome as Record<string, unknown> }; // every kind's outcome is an object
}
