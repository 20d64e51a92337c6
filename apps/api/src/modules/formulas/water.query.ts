import type { RecentMix, Row } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import type { BookRef } from '../../platform/ledger/index.js';

interface MixRow extends Pick<Row<'mixed'>, 'at' | 'minutesSlow' | 'minutesFast'>, Pick<Row<'make'>, 'scalePpm'> {
  readonly frictionMilli: NonNullable<Row<'mixed'>['frictionMilli']>;
}

/** The place of a site by its id. */
export async function placeAt(
  client: ClientBase,
  { organisation, id }: BookRef,
  place: string,
): Promise<Pick<Row<'place'>, 'id' | 'name'> | undefined> {
  const { rows } = await client.query<Pick<Row<'place'>, 'id' | 'name'>>(
    'SELECT id, name FROM place WHERE organisation = $1 AND book = $2 AND id = $3',
    [organisation, id, place],
  );
  return rows[0];
}

/** The last mixes of a formula at one mixer of a site whose friction factor is known, the newest first. */
export async function recentMixes(
  client: ClientBase,
  { organisation, id }: BookRef,
  formula: string,
  mixer: string,
): Promise<readonly RecentMix[]> {
  const { rows } = await client.query<MixRow>(
    `SELECT x.friction_milli AS "frictionMilli", x.at, x.minutes_slow AS "minutesSlow", x.minutes_fast AS "minutesFast", m.scale_ppm AS "scalePpm"
     FROM make m JOIN mixed x ON x.organisation = m.organisation AND x.make = m.id
     WHERE m.organisation = $1 AND m.book = $2 AND m.formula = $3 AND m.station = $4 AND x.friction_milli IS NOT NULL ORDER BY x.at DESC, x.id LIMIT 40`,
    [organisation, id, formula, mixer],
  );
  return rows;
}
