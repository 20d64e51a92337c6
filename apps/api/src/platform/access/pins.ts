import { Inject, Injectable } from '@nestjs/common';
import { permissionsOf, type Role } from '@bakehouse/kernel';
import type { ClientBase } from 'pg';
import { CLOCK, type Clock } from '../clock/index.js';
import { Tenancy, type Computed, type Holds, type Maybe, type TableRow } from '../database/index.js';
import { ProblemException } from '../http/index.js';
import { dropEmptyCounts, goodBefore, lockCounts, saveCounts, type Keys } from './guess-counts.query.js';
import { fromOf, type From } from './from.js';
import { afterNothing, afterRight, afterWrong, beforeTry, type Counts } from './guessing.js';
import { networkOf } from './network.js';
import { hasLeft, rolesInForce } from './people.query.js';
import { PinHash, type AskedFrom } from './pin-hash.js';
import { SecurityLog } from './security-log.js';
import { recordPinSet } from './record-pin-set.js';
import type { SessionContext } from './session.js';
import { isWeakPin, longPin, needsLongPin } from './weak-pin.js';

export interface Claim {
  readonly organisation: string;
  readonly person: string;
  readonly pin: string;
  readonly from: From;
}

/** What a PIN must be for what is asked, beside the right one. */
interface Needed {
  /** Whether one that somebody else gave is enough: to choose one's own, and for nothing else. */
  readonly given?: boolean;
  readonly digits?: number;
}

/**
 * Outside enrolled devices a person's tries from all networks are counted together as well: addresses are cheap. Ids of nobody share one count, so that
 * inventing them leaves no rows behind.
 */
function keysOf(from: From, person: string | undefined): Keys {
  const who = person ?? 'nobody';
  if ('device' in from) return { own: `${who} at device ${from.device}`, place: `device ${from.device}`, elsewhere: null };
  const network = networkOf(from.address);
  return { own: `${who} at network ${network}`, place: `network ${network}`, elsewhere: `${who} elsewhere` };
}

type Held = Maybe<Pick<TableRow<'credential'>, 'hash' | 'setBy'>>;

const turnOf = (from: From): AskedFrom =>
  'device' in from ? { at: 'device', place: from.device } : { at: 'elsewhere', place: networkOf(from.address) };

/** Proves and sets PINs. A PIN goes no further than here: it is never stored and never logged. */
@Injectable()
export class Pins {
  constructor(
    private readonly tenancy: Tenancy,
    private readonly hashes: PinHash,
    private readonly security: SecurityLog,
    @Inject(CLOCK) private readonly clock: Clock,
  ) {}

  /**
   * Goes on only where the PIN is this person's; somebody unknown, without a PIN or gone is answered like a wrong one, as slowly.
   * @throws ProblemException
   */
  async prove(claim: Claim, { given = false, digits = 0 }: Needed = {}): Promise<void> {
    const { organisation, person, pin, from } = claim;
    const { keys, stored, known, setBy } = await this.tenancy.inOrganisation(organisation, async (client) => {
      const found = await this.hashOf(client, organisation, person);
      const keys = keysOf(from, found && person);
      const now = this.clock.now().getTime();
      const allowed = beforeTry(await lockCounts(client, organisation, keys), now);
      if (!allowed.ok) throw new ProblemException('too-many-requests', { 'retry-after': String(Math.ceil(allowed.waitMs / 1000)) });
      await saveCounts(client, organisation, keys, allowed.counts);
      return { keys, stored: found?.hash ?? undefined, setBy: found?.setBy, known: found !== undefined };
    });
    const count = (after: (counts: Counts, now: number) => Counts, wrong: boolean): Promise<void> =>
      this.tenancy.inOrganisation(organisation, async (client) => {
        await saveCounts(client, organisation, keys, after(await lockCounts(client, organisation, keys), this.clock.now().getTime()));
        await dropEmptyCounts(client, organisation, keys);
        if (wrong) await this.security.note(client, organisation, { what: 'pin-wrong', person: known ? person : null, from });
      });
    const fits = await this.hashes.fits(stored, pin, turnOf(from)).catch(async (error: unknown) => {
      await count(afterNothing, false);
      throw error;
    });
    await count(fits ? afterRight : afterWrong, !fits);
    if (!fits) throw new ProblemException('sign-on-refused');
    if (!given && setBy !== person) throw new ProblemException('pin-not-own');
    if (pin.length < digits) throw new ProblemException('pin-too-short');
  }

  /**
   * What concerns people, PINs and tablets asks for the PIN of the person signed on each time, however they signed on: a long one, but for what is their own.
   * @throws ProblemException
   */
  async provePresent(
    session: SessionContext,
    pin: string | undefined,
    address: string,
    needed: Needed = { digits: longPin },
  ): Promise<void> {
    if (pin === undefined)
      throw new ProblemException({ problem: 'malformed', field: 'currentPin', acceptable: 'the PIN that you have now' });
    await this.prove({ organisation: session.organisation, person: session.person, pin, from: fromOf(session, address) }, needed);
  }

  /** Of these people, those whose PIN was right before where somebody asks from: there they are no strangers. */
  async knownFrom(client: ClientBase, organisation: string, persons: readonly string[], from: From): Promise<ReadonlySet<string>> {
    const keys = new Map(persons.map((person) => [keysOf(from, person).own, person]));
    const good = await goodBefore(client, organisation, [...keys.keys()]);
    return new Set([...keys].flatMap(([key, person]) => (good.has(key) ? [person] : [])));
  }

  /** Whether somebody who is here has a PIN; undefined for somebody who is not. */
  async has(organisation: string, person: string): Promise<boolean | undefined> {
    return this.tenancy.reading(organisation, async (client) => {
      const { rows } = await client.query<{ has: Computed<boolean> }>(
        `SELECT EXISTS (SELECT FROM credential c WHERE c.organisation = $1 AND c.person = p.id) AS has FROM person p
         WHERE p.organisation = $1 AND p.id = $2 AND NOT ${hasLeft('p.id')}`,
        [organisation, person],
      );
      return rows[0]?.has;
    });
  }

  /**
   * The hash to store for a new PIN.
   * @throws ProblemException where it is too easy to guess
   */
  async hashFor(pin: string, from: From): Promise<string> {
    if (isWeakPin(pin)) throw new ProblemException({ problem: 'pin-too-weak', field: 'pin' });
    return this.hashes.hash(pin, turnOf(from));
  }

  /**
   * Refuses a short PIN for somebody who may release, approve or close, or let people in.
   * @throws ProblemException
   */
  async refuseTooShort(client: ClientBase, organisation: string, person: string, pin: string): Promise<void> {
    if (pin.length >= longPin) return;
    const { rows } = await client.query<{ role: Holds<TableRow<'roleGiven'>['role'], Role> }>(
      `SELECT r.role FROM (${rolesInForce('$2', '$3::timestamptz')}) r`,
      [organisation, person, this.clock.now().toISOString()],
    );
    if (rows.some(({ role }) => permissionsOf[role].some(needsLongPin)))
      throw new ProblemException({ problem: 'pin-too-short', field: 'pin' });
  }

  async store(client: ClientBase, organisation: string, person: string, hash: string, by: string): Promise<void> {
    await client.query(
      `INSERT INTO credential (organisation, person, hash, set_at, set_by) VALUES ($1, $2, $3, $4, $5)
       ON CONFLICT (organisation, person) DO UPDATE SET hash = excluded.hash, set_at = excluded.set_at, set_by = excluded.set_by`,
      [organisation, person, hash, this.clock.now().toISOString(), by],
    );
    await recordPinSet(client, { organisation, person, by }, this.clock);
  }

  /** Undefined where there is nobody of that id, or nobody any more; a null hash where they have no PIN. */
  private async hashOf(client: ClientBase, organisation: string, person: string): Promise<Held | undefined> {
    const { rows } = await client.query<Held>(
      `SELECT c.hash, c.set_by AS "setBy" FROM person p LEFT JOIN credential c ON c.organisation = $1 AND c.person = p.id
       WHERE p.organisation = $1 AND p.id = $2 AND NOT ${hasLeft('p.id')}`,
      [organisation, person],
    );
    return rows[0];
  }
}
