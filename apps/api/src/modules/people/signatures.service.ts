import type { IssuedSignature } from '@bakehouse/contracts';
import type { Permission } from '@bakehouse/kernel';
import { kindOf } from '@bakehouse/records';
import { Inject, Injectable } from '@nestjs/common';
import {
  ACCESS_SETTINGS,
  fromOf,
  keepSignature,
  longPin,
  needsLongPin,
  Pins,
  SecurityLog,
  type AccessSettings,
  type SessionContext,
} from '../../platform/access/index.js';
import { CLOCK, type Clock } from '../../platform/clock/index.js';
import { Tenancy } from '../../platform/database/index.js';
import { ProblemException } from '../../platform/http/index.js';
import { randomToken, tokenHash } from '../../platform/ids/index.js';
import { inputOf } from '../../platform/ledger/index.js';

@Injectable()
export class SignaturesService {
  constructor(
    private readonly pins: Pins,
    private readonly security: SecurityLog,
    private readonly tenancy: Tenancy,
    @Inject(CLOCK) private readonly clock: Clock,
    @Inject(ACCESS_SETTINGS) private readonly settings: AccessSettings,
  ) {}

  /**
   * A token for exactly this input, in the meaning of its kind. It lets that one entry in and makes the session no stronger.
   * @throws ProblemException where the entry cannot be signed or the PIN does not fit
   */
  async issue(session: SessionContext, pin: string, entry: unknown, address: string): Promise<IssuedSignature> {
    const { meaning, hash, permission, kind } = whatIsSigned(entry);
    session.requireWhenSigned(permission);
    const { organisation, person } = session;
    await this.pins.prove(
      { organisation, person, pin, from: fromOf(session, address) },
      needsLongPin(permission) ? { digits: longPin } : {},
    );
    const now = this.clock.now();
    const expiresAt = new Date(now.getTime() + this.settings.signatureMs).toISOString();
    const token = randomToken();
    await this.tenancy.inOrganisation(organisation, async (client) => {
      const signed = { tokenHash: tokenHash(token), person, inputHash: hash, meaning, signedAt: now.toISOString(), expiresAt };
      await keepSignature(client, organisation, signed);
      await this.security.note(client, organisation, { what: 'signature-given', person, from: fromOf(session, address), detail: kind });
    });
    return { signature: token, meaning, expiresAt };
  }
}

function whatIsSigned(entry: unknown): { meaning: string; hash: Buffer; permission: Permission; kind: string } {
  const kind = kindOf(entry);
  const read = kind?.read(entry);
  if (!kind || !read) throw new ProblemException({ problem: 'unknown-kind', field: 'entry.kind' });
  if (!read.ok) throw new ProblemException({ ...read, field: `entry.${read.field ?? ''}`.replace(/\.$/, '') });
  if (kind.signed === null)
    throw new ProblemException({ problem: 'unacceptable-value', field: 'entry.kind', acceptable: 'a kind of record that is signed' });
  const input = inputOf(read.envelope);
  if (!input)
    throw new ProblemException({ problem: 'malformed', field: 'entry', acceptable: 'text without NUL characters and broken surrogates' });
  return { meaning: kind.signed, hash: input.hash, permission: kind.permission, kind: kind.name };
}
