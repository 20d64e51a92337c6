import { Injectable } from '@nestjs/common';
import { hash, verify } from '@node-rs/argon2';
import pLimit from 'p-limit';
import { ProblemException } from '../http/index.js';
import { randomToken } from '../ids/index.js';

/** Argon2id (the library's default): 19 MiB, two passes, one lane; RFC 9106 describes it, the figures are OWASP's least for it (from memory). */
const cost = { memoryCost: 19_456, timeCost: 2, parallelism: 1 } as const;

/** So many at once: each takes a core and 19 MiB, and the rest of the house goes on writing. */
const concurrency = 2;
const maxWaiting = 64;

/** Hashes and checks PINs off the event loop, a few at a time. */
@Injectable()
export class PinHash {
  private readonly few = pLimit(concurrency);
  private decoy: Promise<string> | undefined;

  hash(pin: string): Promise<string> {
    return this.inTurn(() => hash(pin, cost));
  }

  /** Takes as long whether there is a hash or not, so that the time tells nothing of who has a PIN. */
  async fits(stored: string | undefined, pin: string): Promise<boolean> {
    this.decoy ??= hash(randomToken(), cost);
    const against = stored ?? (await this.decoy);
    const fits = await this.inTurn(() => verify(against, pin));
    return fits && stored !== undefined;
  }

  private async inTurn<T>(work: () => Promise<T>): Promise<T> {
    if (this.few.pendingCount >= maxWaiting) throw new ProblemException('unavailable', { 'retry-after': '5' });
    return this.few(work);
  }
}
