import { Inject, Injectable } from '@nestjs/common';
import { CLOCK, type Clock } from '../clock/index.js';
import { PrismaReads, Tenancy, type Columns, type TableRow } from '../database/index.js';
import { ProblemException } from '../http/index.js';
import { randomToken, tokenHash, uuidv7 } from '../ids/index.js';
import { ACCESS_SETTINGS, type AccessSettings } from './settings.js';
import type { From } from './from.js';
import { SecurityLog } from './security-log.js';
import { Sessions } from './sessions.js';
import { mintToken, type Presented } from './tokens.js';

type Device = TableRow<'device'>;
export type EnrolledDevice = Pick<Device, 'organisation' | 'id' | 'name' | 'site'>;
export type ListedDevice = Pick<Device, 'id' | 'name' | 'site' | 'enrolledAt' | 'enrolledBy' | 'revokedAt'>;
export interface Enrolled {
  readonly device: EnrolledDevice;
  readonly token: string;
}

/** Letters and digits that nobody mistakes for one another: no 0, 1, I, L, O, U. */
const letters = 'ABCDEFGHJKMNPQRSTVWXYZ23456789';
const codeLength = 10;

/** Tablets: enrolled with a code that somebody at the site typed in, known by a token from then on, revoked for ever. */
@Injectable()
export class Devices {
  constructor(
    private readonly tenancy: Tenancy,
    private readonly reads: PrismaReads,
    private readonly sessions: Sessions,
    private readonly security: SecurityLog,
    @Inject(CLOCK) private readonly clock: Clock,
    @Inject(ACCESS_SETTINGS) private readonly settings: AccessSettings,
  ) {}

  /** The device of a token, if it is enrolled still. */
  async current(presented: Presented | undefined): Promise<EnrolledDevice | undefined> {
    if (!presented) return undefined;
    const { organisation, hash } = presented;
    return this.tenancy.reading(organisation, async (client) => {
      const { rows } = await client.query<EnrolledDevice>({
        name: 'device by token',
        values: [organisation, hash],
        text: 'SELECT organisation, id, name, site FROM device WHERE organisation = $1 AND token_hash = $2 AND revoked_at IS NULL',
      });
      return rows[0];
    });
  }

  /** A code for one tablet at one site. Ten of thirty letters are 49 bits, for a few minutes. */
  async newCode(organisation: string, site: string, by: string, from: From): Promise<{ code: string; expiresAt: string }> {
    const now = this.clock.now();
    const expiresAt = new Date(now.getTime() + this.settings.enrolmentCodeMs).toISOString();
    const code = randomCode();
    await this.tenancy.inOrganisation(organisation, async (client) => {
      await client.query(
        'INSERT INTO enrolment_code (organisation, code_hash, site, made_at, made_by, expires_at) VALUES ($1, $2, $3, $4, $5, $6)',
        [organisation, tokenHash(code), site, now.toISOString(), by, expiresAt],
      );
      await this.security.note(client, organisation, { what: 'code-made', person: by, from });
    });
    return { code, expiresAt };
  }

  /**
   * Enrols a tablet with a code as it was typed; the code is used up.
   * @throws ProblemException where the code opens nothing
   */
  async enrol(organisation: string, typed: string, name: string, address: string): Promise<Enrolled> {
    const now = this.clock.now();
    const { token, hash } = mintToken(organisation);
    return this.tenancy.inOrganisation(organisation, async (client) => {
      const { rows } = await client.query<Columns<Pick<TableRow<'enrolmentCode'>, 'site' | 'madeBy'>>>(
        'UPDATE enrolment_code SET used_at = $3 WHERE organisation = $1 AND code_hash = $2 AND used_at IS NULL AND expires_at > $3 RETURNING site, made_by',
        [organisation, tokenHash(typed.toUpperCase().replace(/[^A-Z0-9]/g, '')), now.toISOString()],
      );
      const code = rows[0];
      if (!code) throw new ProblemException({ problem: 'code-not-valid', field: 'code' });
      const device = { organisation, id: uuidv7(now), name, site: code.site };
      await client.query(
        'INSERT INTO device (organisation, id, name, site, token_hash, enrolled_at, enrolled_by) VALUES ($1, $2, $3, $4, $5, $6, $7)',
        [organisation, device.id, name, device.site, hash, now.toISOString(), code.made_by],
      );
      await this.security.note(client, organisation, {
        what: 'device-enrolled',
        person: code.made_by,
        about: device.id,
        from: { address },
        detail: name,
      });
      return { device, token };
    });
  }

  /** Every device that was ever enrolled at these sites, the present ones first. */
  async list(organisation: string, sites: readonly string[]): Promise<ListedDevice[]> {
    return this.tenancy.reading(organisation, async (client) => {
      const { rows } = await client.query<ListedDevice>(
        `SELECT id, name, site, enrolled_at AS "enrolledAt", enrolled_by AS "enrolledBy", revoked_at AS "revokedAt" FROM device
         WHERE organisation = $1 AND site = ANY($2) ORDER BY revoked_at IS NOT NULL, name, id`,
        [organisation, sites],
      );
      return rows;
    });
  }

  /** Where a device is; undefined for one that is not this organisation's. */
  async siteOf(organisation: string, device: string): Promise<string | undefined> {
    const found = await this.reads.inOrganisation(organisation, (tx) =>
      tx.device.findUnique({ where: { organisation_id: { organisation, id: device } }, select: { site: true } }),
    );
    return found?.site;
  }

  /** From now on the tablet is nobody's, and who was signed on there no longer is. Twice does no harm. */
  async revoke(organisation: string, device: string, by: string, from: From): Promise<void> {
    await this.tenancy.inOrganisation(organisation, async (client) => {
      await client.query('UPDATE device SET revoked_at = $3, revoked_by = $4 WHERE organisation = $1 AND id = $2 AND revoked_at IS NULL', [
        organisation,
        device,
        this.clock.now().toISOString(),
        by,
      ]);
      await this.sessions.endAll(client, organisation, { device }, 'device-revoked');
      await this.security.note(client, organisation, { what: 'device-revoked', person: by, about: device, from });
    });
  }
}

/** Bytes that would favour the first letters are passed over. */
function randomCode(): string {
  const fair = 256 - (256 % letters.length);
  let code = '';
  while (code.length < codeLength) {
    for (const byte of Buffer.from(randomToken(32), 'base64url'))
      if (byte < fair && code.length < codeLength) code += letters[byte % letters.length] ?? '';
  }
  return code;
}
