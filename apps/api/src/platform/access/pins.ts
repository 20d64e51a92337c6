import { Inject, Injectable } from '@nestjs/common';
import type { ClientBase } from 'pg';
import { CLOCK, type Clock } from '../clock/index.js';
import { Tenancy, type Computed, type TableRow } from '../database/index.js';
import { ProblemException } from '../http/index.js';
import { lockCounts, saveCounts, type Keys } from './guess-counts.query.js';
import { afterRight, afterWrong, beforeTry } from './guessing.js';
import { hasLeft } from './people.query.js';
import { PinHash } from './pin-hash.js';
import { isWeakPin } from './weak-pin.js';

/** From where a PIN comes: an enrolled device, or an address outside of them. */
export type From = { readonly device: string } | { readonly address: string };
export interface Claim {
  readonly organisation: string;
  readonly person: string;
  readonly pin: string;
  readonly from: From;
}

/** Outside enrolled devices one person has one count wherever the tries come from: addresses are cheap. */
const keysOf = ({ person, from }: Claim): Keys =>
  'device' in from
    ? { own: `${person} at device ${from.device}`, place: `device ${from.device}` }
    : { own: `${person} elsewhere`, place: `address ${from.address}` };

/** Where the PIN of somebody signed on comes from. */
export const fromOf = ({ device }: { readonly device: string | null }, address: string): From =>
  device === null ? { address } : { device };

/** Proves and sets PINs. A PIN goes no further than here: it is never stored and never logged. */
@Injectable()
export class Pins {
  constructor(
    private readonly tenancy: Tenancy,
    private readonly hashes: PinHash,
    @Inject(CLOCK) private readonly clock: Clock,
  ) {}

  /**
   * Goes on only where the PIN is this person's; somebody unknown, without a PIN or gone is answered like a wrong one, as slowly.
   * @throws ProblemException
   */
  async prove(claim: Claim): Promise<void> {
    const { organisation, person, pin } = claim;
    const keys = keysOf(claim);
    const stored = await this.tenancy.inOrganisation(organisation, async (client) => {
      const now = this.clock.now().getTime();
      const allowed = beforeTry(await lockCounts(client, organisation, keys), now);
      if (!allowed.ok) throw new ProblemException('too-many-requests', { 'retry-after': String(Math.ceil(allowed.waitMs / 1000)) });
      await saveCounts(client, organisation, keys, allowed.counts);
      return this.hashOf(client, organisation, person);
    });
    const fits = await this.hashes.fits(stored, pin);
    await this.tenancy.inOrganisation(organisation, async (client) => {
      const now = this.clock.now().getTime();
      await saveCounts(client, organisation, keys, (fits ? afterRight : afterWrong)(await lockCounts(client, organisation, keys), now));
    });
    if (!fits) throw new ProblemException('sign-on-refused');
  }

  /** Whether somebody who is here has a PIN; undefined for somebody who is not. */
  async has(organisation: string, person: string): Promise<boolean | undefined> {
    return this.tenancy.reading(organisation, async (client) => {
      const { rows } = await client.query<{ has: Computed<boolean> }>(
        `SELECT EXISTS (SELECT FROM credential c WHERE c.organisation = $1 AND c.person = p.id) AS has FROM person p
         WHERE p.organisation = $1 AND p.id = $2 AND NOT ${hasLeft('p.id', '$3')}`,
        [organisation, person, this.clock.now().toISOString()],
      );
      return rows[0]?.has;
    });
  }

  /**
   * The hash to store for a new PIN.
   * @throws ProblemException where it is too easy to guess
   */
  async hashFor(pin: string): Promise<string> {
    if (isWeakPin(pin)) throw new ProblemException({ problem: 'pin-too-weak', field: 'pin' });
    return this.hashes.hash(pin);
  }

  async store(client: ClientBase, organisation: string, person: string, hash: string, by: string): Promise<void> {
    await client.query(
      `INSERT INTO credential (organisation, person, hash, set_at, set_by) VALUES ($1, $2, $3, $4, $5)
       ON CONFLICT (organisation, person) DO UPDATE SET hash = excluded.hash, set_at = excluded.set_at, set_by = excluded.set_by`,
      [organisation, person, hash, this.clock.now().toISOString(), by],
    );
  }

  private async hashOf(client: ClientBase, organisation: string, person: string): Promise<string | undefined> {
    const { rows } = await client.query<Pick<TableRow<'credential'>, 'hash'>>(
      `SELECT c.hash FROM credential c JOIN person p ON p.organisation = $1 AND p.id = c.person
       WHERE c.organisation = $1 AND c.person = $2 AND NOT ${hasLeft('c.person', '$3')}`,
      [organisation, person, this.clock.now().toISOString()],
    );
    return rows[0]?.hash;
  }
}
