import { retiredSince, type Row } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import type { Maybe, TableRow } from '../../platform/database/index.js';
import { table } from '../../platform/ledger/index.js';
import { approvalOf, type Approval } from './approvals.query.js';

export type Version = Row<'formulaVersion'>;
export interface NewestVersion extends Version, Approval {
  readonly retired: Maybe<Row<'formulaRetired'>>['at'];
}
interface WithEnd extends Version, Approval {
  readonly ended: Maybe<Row<'formulaRetired'>>['at'];
}

/** The newest version of every formula by name, with who signed it and since when it is retired, if it is. */
export async function newestVersions(client: ClientBase, organisation: string): Promise<readonly NewestVersion[]> {
  const { rows } = await client.query<WithEnd>(
    `SELECT v.id, v.formula, v.number, v.name, v.type, v.content, v.since, signing.signed, signing.note,
       (SELECT max(a.at) FROM formula_retired a WHERE a.organisation = v.organisation AND a.formula = v.formula) AS ended
     FROM (SELECT DISTINCT ON (formula) * FROM formula_version WHERE organisation = $1 ORDER BY formula, number DESC) v ${approvalOf('v')}
     ORDER BY lower(v.name), v.formula`,
    [organisation],
  );
  return rows.map(({ ended, ...version }) => ({ ...version, retired: retiredSince(version.since, ended === null ? [] : [ended]) }));
}

/** Every version of one formula, the newest first. */
export async function versionsOf(client: ClientBase, organisation: string, formula: string): Promise<readonly (Version & Approval)[]> {
  const { rows } = await client.query<Version & Approval>(
    `SELECT v.id, v.formula, v.number, v.name, v.type, v.content, v.since, signing.signed, signing.note FROM formula_version v ${approvalOf('v')}
     WHERE v.organisation = $1 AND v.formula = $2 ORDER BY v.number DESC`,
    [organisation, formula],
  );
  return rows;
}

/** Every specification that was ever accepted, in the order of time. */
export async function specifications(client: ClientBase, organisation: string): Promise<readonly Row<'specification'>[]> {
  const { rows } = await client.query<Row<'specification'> & Pick<TableRow<'specification'>, 'book'>>(
    `${table('specification').select} WHERE organisation = $1 ORDER BY since, seq`,
    [organisation],
  );
  return rows.map(({ book: _book, ...row }) => row);
}
