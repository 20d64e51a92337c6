import { Injectable } from '@nestjs/common';
import { Pins, SecurityLog, Sessions, type From } from '../../platform/access/index.js';
import { Tenancy } from '../../platform/database/index.js';

interface PinChange {
  readonly organisation: string;
  readonly person: string;
  readonly pin: string;
  /** Who gives it. */
  readonly by: string;
  readonly from: From;
  /** The session that may stay. */
  readonly but: string | null;
}

/** A new PIN, of one's own or given by an administrator: noted, and every session of that person ends. */
@Injectable()
export class PinChanges {
  constructor(
    private readonly pins: Pins,
    private readonly security: SecurityLog,
    private readonly sessions: Sessions,
    private readonly tenancy: Tenancy,
  ) {}

  /** @throws ProblemException where the PIN is too easy to guess */
  async make({ organisation, person, pin, by, from, but }: PinChange): Promise<void> {
    const hash = await this.pins.hashFor(pin, from);
    await this.tenancy.inOrganisation(organisation, async (client) => {
      await this.pins.refuseTooShort(client, organisation, person, pin);
      await this.pins.store(client, organisation, person, hash, by);
      await this.security.note(client, organisation, { what: 'pin-set', person: by, about: person, from });
      await this.sessions.endAll(client, organisation, { person }, 'pin-changed', but);
    });
  }
}
