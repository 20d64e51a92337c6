import { entryResults, signature, signedOn, type EntryResult } from '@bakehouse/contracts';
import type { SentEnvelope } from '@bakehouse/kernel';
import type { Clock } from '../../platform/clock/index.js';
import { people, type PersonKey } from '../data/people.js';
import type { Door } from '../player.js';
import type { Where } from '../story/story.js';
import type { Caller } from './caller.js';

interface SignedOn {
  readonly caller: Caller;
  readonly atMs: number;
}
/** A sign-on with a PIN is renewed before it ends for want of a touch. */
const renewMs = 20 * 60_000;

/** The door over HTTP: people sign on, send and sign through the routes. */
export class DoorOverHttp implements Door {
  requests = 0;
  private readonly callers = new Map<PersonKey, SignedOn>();

  constructor(
    private readonly anybody: Caller,
    private readonly clock: Clock,
    private readonly organisation: string,
    private readonly person: Readonly<Record<PersonKey, string>>,
    private readonly sites: Readonly<Record<'bakehouse' | 'shop', string>>,
  ) {}

  async sign(by: PersonKey, entry: SentEnvelope): Promise<string> {
    const caller = await this.callerOf(by);
    this.requests += 1;
    return signature.parse(await caller.post('/signatures', { pin: people[by].pin, entry })).signature;
  }

  async send(by: PersonKey, where: Where, entries: readonly SentEnvelope[]): Promise<readonly EntryResult[]> {
    const caller = await this.callerOf(by);
    this.requests += 1;
    return entryResults.parse(
      await caller.post(where === 'organisation' ? '/organisation/entries' : `/sites/${this.sites[where]}/entries`, entries),
    );
  }

  async callerOf(by: PersonKey): Promise<Caller> {
    const nowMs = this.clock.now().getTime();
    const known = this.callers.get(by);
    if (known && nowMs - known.atMs < renewMs) return known.caller;
    this.requests += 1;
    const { token } = signedOn.parse(
      await this.anybody.post('/sign-on', { organisation: this.organisation, person: this.person[by], pin: people[by].pin }),
    );
    const caller = this.anybody.signedOn(token);
    this.callers.set(by, { caller, atMs: nowMs });
    return caller;
  }
}
