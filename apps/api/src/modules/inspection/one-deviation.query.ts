import type { CollectionName } from '@bakehouse/records';
import type { DeviationRows } from '@bakehouse/views';
import type { ClientBase } from 'pg';
import { snake, table } from '../../platform/ledger/index.js';
import { foodAtSiteSql } from '../standing/index.js';
import type { RecordedRow } from './period-rows.query.js';

/** It was reported at the site, or something about it was recorded there, or the food that it is about was ever there: else the site hears nothing of it. */
const concernsSite = `(book = $3 OR ${['disposition', 'deviation_closed', 'corrective_action']
  .map((of) => `EXISTS (SELECT FROM ${of} x WHERE x.organisation = $1 AND x.deviation = $2 AND x.book = $3)`)
  .join(' OR ')}
    OR ${foodAtSiteSql('deviation.subject', '$3')})`;

const ofDeviation = {
  person: 'true',
  place: 'true',
  instrument: 'true',
  deviation: `id = $2 AND ${concernsSite}`,
  correctiveAction: 'deviation = $2',
  disposition: 'deviation = $2',
  deviationClosed: 'deviation = $2',
  reading: 'subject = (SELECT d.subject FROM deviation d WHERE d.organisation = $1 AND d.id = $2)',
} as const satisfies Partial<Record<CollectionName, string>>;
type Names = keyof typeof ofDeviation;

/** The rows of one deviation that concerns a site, whenever it was opened and whichever site recorded each: those that the page of a period reads of each. */
export async function rowsOfDeviation(client: ClientBase, organisation: string, site: string, deviation: string): Promise<DeviationRows> {
  const of = async <C extends Names>(name: C): Promise<RecordedRow<C>[]> => {
    const { fields, name: called } = table(name);
    const columns = fields.map(([field, column]) => `"${column}" AS "${field}"`).join(', ');
    const time = fields.find(([field]) => field === 'at');
    const { rows } = await client.query<RecordedRow<C>>({
      name: `deviation ${name}`,
      text: `SELECT id, entry, ${columns} FROM "${called}" WHERE organisation = $1 AND $2::uuid IS NOT NULL AND $3::uuid IS NOT NULL AND (${ofDeviation[name]})
        ORDER BY ${time ? `"${snake(time[0])}", ` : ''}id`,
      values: [organisation, deviation, site],
    });
    return rows;
  };
  return {
    person: await of('person'),
    place: await of('place'),
    instrument: await of('instrument'),
    deviation: await of('deviation'),
    correctiveAction: await of('correctiveAction'),
    disposition: await of('disposition'),
    deviationClosed: await of('deviationClosed'),
    reading: await of('reading'),
  };
}
