import { hash, verify } from '@node-rs/argon2';
import pLimit, { type LimitFunction } from 'p-limit';
import { ProblemException } from '../http/index.js';
import { randomToken } from '../ids/index.js';

/** Argon2id (the library's default): 19 MiB, two passes, one lane; RFC 9106 describes it, the figures are OWASP's least for it (from memory). */
export const pinCost = { memoryCost: 19_456, timeCost: 2, parallelism: 1 };
/** What hashing a PIN costs in this process: less in tests, which are not about it. */
export const PIN_COST = Symbol('pin cost');
export type PinCost = Readonly<typeof pinCost>;

/** Each hash takes a core and 19 MiB; the rest of the house goes on writing. One turn is kept for enrolled devices: strangers never use up all. */
const turns = { device: pLimit(1), elsewhere: pLimit(1) };
const maxWaitingOfOne = 8;
const maxPlaces = 64;

/** Where a PIN comes from, as far as it matters for its turn. */
export interface AskedFrom {
  readonly at: keyof typeof turns;
  readonly place: string;
}

/** Hashes and checks PINs off the event loop, a few at a time, one place after the other: somebody who asks a thousand times waits for themselves. */
export class PinHash {
  private readonly waiting = new Map<string, LimitFunction>();
  private decoy: Promise<string> | undefined;

  constructor(private readonly cost: PinCost = pinCost) {}

  hash(pin: string, from: AskedFrom): Promise<string> {
    return this.inTurn(from, () => hash(pin, this.cost));
  }

  /** Takes as long whether there is a hash or not, so that the time tells nothing of who has a PIN. */
  async fits(stored: string | undefined, pin: string, from: AskedFrom): Promise<boolean> {
    this.decoy ??= hash(randomToken(), this.cost);
    const against = stored ?? (await this.decoy);
    const fits = await this.inTurn(from, () => verify(against, pin));
    return fits && stored !== undefined;
  }

  private async inTurn<T>({ at, place }: AskedFrom, work: () => Promise<T>): Promise<T> {
    const key = `${at} ${place}`;
    const own = this.waiting.get(key) ?? pLimit(1);
    const tooMany = own.pendingCount >= maxWaitingOfOne || (at === 'elsewhere' && !this.waiting.has(key) && this.waiting.size >= maxPlaces);
    if (tooMany) throw new ProblemException('unavailable', { 'retry-after': '5' });
    this.waiting.set(key, own);
    try {
      return await own(() => turns[at](work));
    } finally {
      if (own.activeCount + own.pendingCount === 0) this.waiting.delete(key);
    }
  }
}
