import type { SecurityWhat } from '@bakehouse/contracts';
import { Inject, Injectable } from '@nestjs/common';
import type { ClientBase } from 'pg';
import { CLOCK, type Clock } from '../clock/index.js';
import { Tenancy } from '../database/index.js';
import { uuidv7 } from '../ids/index.js';
import type { From } from './from.js';
import { networkOf } from './network.js';

export interface SecurityEvent {
  readonly what: SecurityWhat;
  /** Who did it; null for somebody who is nobody here. */
  readonly person: string | null;
  /** The person or the tablet that it is about. */
  readonly about?: string | null;
  readonly from: From;
  readonly detail?: string;
}

/** Notes what happens at the service's door, in a transaction that is open or in one of its own. No PIN and no token comes in here. */
@Injectable()
export class SecurityLog {
  constructor(
    private readonly tenancy: Tenancy,
    @Inject(CLOCK) private readonly clock: Clock,
  ) {}

  async note(client: ClientBase, organisation: string, { what, person, about = null, from, detail }: SecurityEvent): Promise<void> {
    const now = this.clock.now();
    const [device, address] = 'device' in from ? [from.device, null] : [null, networkOf(from.address)];
    await client.query({
      name: 'note security event',
      text: 'INSERT INTO security_event (organisation, id, at, what, person, about, device, address, detail) VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9)',
      values: [organisation, uuidv7(now), now.toISOString(), what, person, about, device, address, detail?.slice(0, 500) ?? null],
    });
  }

  noteAlone(organisation: string, event: SecurityEvent): Promise<void> {
    return this.tenancy.inOrganisation(organisation, (client) => this.note(client, organisation, event));
  }
}
