import type { Touched, UsedFlow } from '@bakehouse/graph';
import type { Row } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import { intoLots, lotsOf, oneOffsOf, touchedBefore } from './counter.query.js';

export interface RowsOfUse {
  readonly lots: readonly Row<'lot'>[];
  readonly flows: readonly UsedFlow[];
  readonly oneOffs: readonly Row<'oneOff'>[];
  readonly touched: readonly Touched[];
}

/** What was used in these lots, however indirectly, and in what their bowls held before them: the rows that say what they contain. */
export async function rowsOfUse(client: ClientBase, organisation: string, ids: readonly string[]): Promise<RowsOfUse> {
  const flows = await intoLots(client, organisation, ids);
  const reached = [...new Set([...ids, ...flows.flatMap((f) => [f.source, f.target])])];
  const touched = await touchedBefore(client, organisation, reached);
  const befores = touched.map((t) => t.before);
  const around = await intoLots(client, organisation, befores);
  const all = [...new Set([...reached, ...befores, ...around.map((f) => f.source)])];
  return {
    lots: await lotsOf(client, organisation, all),
    flows: [...flows, ...around],
    oneOffs: await oneOffsOf(client, organisation, all),
    touched,
  };
}
