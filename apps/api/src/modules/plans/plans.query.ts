import type { Row } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import { approvalOf, type Approval } from '../formulas/index.js';

export type PlanRow = Row<'planVersion'> & Approval;

/** Every approved version of every plan, the latest first: the first one for a site, or for all, is in force there. */
export async function planVersions(client: ClientBase, organisation: string): Promise<readonly PlanRow[]> {
  const { rows } = await client.query<PlanRow>(
    `SELECT v.id, v.series, v.number, v.site, v.content, v.loosened, v.since, signing.signed, signing.note FROM plan_version v ${approvalOf('v')}
     WHERE v.organisation = $1 ORDER BY v.since DESC, v.seq DESC`,
    [organisation],
  );
  return rows;
}
