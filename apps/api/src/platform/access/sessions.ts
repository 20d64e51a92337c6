import { Inject, Injectable } from '@nestjs/common';
import type { ClientBase } from 'pg';
import { CLOCK, type Clock } from '../clock/index.js';
import { Tenancy, type Maybe, type TableRow } from '../database/index.js';
import { ProblemException } from '../http/index.js';
import { uuidv7 } from '../ids/index.js';
import { Lane } from '../ledger/lanes.js';
import { fromOf } from './from.js';
import type { Strength } from './permissions.js';
import { SecurityLog } from './security-log.js';
import { SessionContext } from './session.js';
import { findSessions, heldFrom, type StoredSession } from './sessions.query.js';
import { ACCESS_SETTINGS, type AccessSettings } from './settings.js';
import { mintToken, type Presented } from './tokens.js';
import { whyEnded, type EndedWhy } from './why-ended.js';

export interface Opened {
  readonly token: string;
  readonly session: string;
  readonly name: string | null;
  readonly expiresAt: string;
}
type Whose = { readonly person: string } | { readonly device: string } | { readonly session: string };
interface Opening {
  readonly organisation: string;
  readonly person: string;
  readonly device: string | null;
  readonly strength: Strength;
  /** Where it is asked from. */
  readonly address: string;
}

/** A session's last touch is written at most this often: a busy tablet does not write it with every reading. */
const touchEveryMs = 60_000;

/** Sessions: opened at sign-on, looked up at each request, ended by whatever comes first. */
@Injectable()
export class Sessions {
  /** What is asked while a lookup is under way is looked up together in the next one: busy tablets share, and each answer is as of after its question. */
  private readonly lookups = new Lane<Presented, StoredSession | undefined>((asked) => this.look(asked));

  constructor(
    private readonly tenancy: Tenancy,
    private readonly security: SecurityLog,
    @Inject(CLOCK) private readonly clock: Clock,
    @Inject(ACCESS_SETTINGS) private readonly settings: AccessSettings,
  ) {}

  open({ organisation, person, device, strength, address }: Opening): Promise<Opened> {
    const now = this.clock.now();
    const session = uuidv7(now);
    const expiresAt = new Date(now.getTime() + this.settings.sessionMs).toISOString();
    const { token, hash } = mintToken(organisation);
    return this.tenancy.inOrganisation(organisation, async (client) => {
      const { rows } = await client.query<Maybe<Pick<TableRow<'person'>, 'name'>>>({
        name: 'open session',
        text: `INSERT INTO session (organisation, id, token_hash, person, device, strength, created_at, expires_at, last_seen_at)
               VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $7)
               RETURNING (SELECT p.name FROM person p WHERE p.organisation = $1 AND p.id = $4) AS name`,
        values: [organisation, session, hash, person, device, strength, now.toISOString(), expiresAt],
      });
      await this.security.note(client, organisation, { what: 'signed-on', person, from: fromOf({ device }, address), detail: strength });
      return { token, session, name: rows[0]?.name ?? null, expiresAt };
    });
  }

  /**
   * The session of a token, as of now.
   * @throws ProblemException where there is none, or it has ended
   */
  async current(presented: Presented | undefined): Promise<SessionContext> {
    if (!presented) throw new ProblemException('not-signed-on');
    const [found] = await this.lookups.add([presented]);
    if (!found) throw new ProblemException('session-ended');
    return new SessionContext({
      organisation: presented.organisation,
      person: found.person,
      name: found.name,
      session: found.id,
      device: found.device,
      strength: found.strength,
      expiresAt: found.expires_at,
      allSites: found.sites,
      ...heldFrom(found.held, found.accesses),
    });
  }

  /** Ends the session of a token, if it is open. */
  async signOff({ organisation, hash }: Presented): Promise<void> {
    const why: EndedWhy = 'signed-off';
    await this.tenancy.inOrganisation(organisation, (client) =>
      client.query('UPDATE session SET ended_at = $3, ended_why = $4 WHERE organisation = $1 AND token_hash = $2 AND ended_at IS NULL', [
        organisation,
        hash,
        this.clock.now().toISOString(),
        why,
      ]),
    );
  }

  /** Ends those of a person's or a device's sessions that are open, but for one that may stay. */
  async endAll(client: ClientBase, organisation: string, whose: Whose, why: EndedWhy, but: string | null = null): Promise<void> {
    const [column, id] =
      'person' in whose ? ['person', whose.person] : 'device' in whose ? ['device', whose.device] : ['id', whose.session];
    await client.query(
      `UPDATE session SET ended_at = $3, ended_why = $4 WHERE organisation = $1 AND ${column} = $2 AND ended_at IS NULL AND id IS DISTINCT FROM $5`,
      [organisation, id, this.clock.now().toISOString(), why, but],
    );
  }

  /** One transaction for each organisation that is asked about; in the order asked. */
  private async look(asked: readonly Presented[]): Promise<(StoredSession | undefined)[]> {
    const byOrganisation = new Map<string, Buffer[]>();
    for (const { organisation, hash } of asked) byOrganisation.set(organisation, [...(byOrganisation.get(organisation) ?? []), hash]);
    const found = new Map<string, Map<string, StoredSession>>();
    await Promise.all(
      [...byOrganisation].map(async ([organisation, hashes]) => found.set(organisation, await this.openOf(organisation, hashes))),
    );
    return asked.map(({ organisation, hash }) => found.get(organisation)?.get(hash.toString('hex')));
  }

  /** Those that are open still; the others are ended, and these noted as touched. Nothing of the kind is due for most. */
  private async openOf(organisation: string, hashes: readonly Buffer[]): Promise<Map<string, StoredSession>> {
    const now = this.clock.now();
    const found = await this.tenancy.inOneTrip(organisation, (client) => findSessions(client, organisation, hashes, now.toISOString()));
    const ended: { readonly session: string; readonly why: EndedWhy }[] = [];
    const touched: string[] = [];
    for (const [key, stored] of found) {
      const why = stored.ended_at === null ? whyEnded(stored, now, this.settings) : 'already';
      if (why === undefined && now.getTime() - Date.parse(stored.last_seen_at) >= touchEveryMs) touched.push(stored.id);
      if (why !== undefined) found.delete(key);
      if (why !== undefined && why !== 'already') ended.push({ session: stored.id, why });
    }
    if (ended.length + touched.length > 0)
      await this.tenancy.inOrganisation(organisation, async (client) => {
        for (const { session, why } of ended) await this.endAll(client, organisation, { session }, why);
        if (touched.length > 0) await this.touch(client, organisation, touched, now);
      });
    return found;
  }

  private async touch(client: ClientBase, organisation: string, sessions: readonly string[], now: Date): Promise<void> {
    await client.query('UPDATE session SET last_seen_at = $3 WHERE organisation = $1 AND id = ANY($2)', [
      organisation,
      sessions,
      now.toISOString(),
    ]);
  }
}
