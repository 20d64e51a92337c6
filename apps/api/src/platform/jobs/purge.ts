import { Inject, Injectable } from '@nestjs/common';
import type { ClientBase } from 'pg';
import { CLOCK, type Clock } from '../clock/index.js';
import { CONFIG, type Config } from '../config/index.js';
import { organisationIds, Tenancy } from '../database/index.js';
import { retention, type Kept } from './retention.js';

export interface Purged {
  readonly what: string;
  readonly count: number;
}

const dayMs = 86_400_000;

/** Deletes what is past its age: each type of each organisation in a transaction of its own, inside that organisation's fence. */
@Injectable()
export class Purge {
  constructor(
    private readonly tenancy: Tenancy,
    @Inject(CLOCK) private readonly clock: Clock,
    @Inject(CONFIG) private readonly config: Config,
  ) {}

  /** How many of each type went. */
  async run(): Promise<readonly Purged[]> {
    const organisations = await this.tenancy.outside(organisationIds);
    const purged: Purged[] = [];
    for (const kept of retention) {
      const before = new Date(this.clock.now().getTime() - this.config[kept.days] * dayMs).toISOString();
      let count = 0;
      for (const organisation of organisations)
        count += await this.tenancy.inOrganisation(organisation, (client) => purge(client, organisation, kept, before));
      purged.push({ what: kept.what, count });
    }
    return purged;
  }
}

async function purge(client: ClientBase, organisation: string, { table, since, only }: Kept, before: string): Promise<number> {
  const { rowCount } = await client.query(
    `DELETE FROM "${table}" t WHERE t.organisation = $1 AND ${since} <= $2${only === undefined ? '' : ` AND ${only}`}`,
    [organisation, before],
  );
  return rowCount ?? 0;
}
