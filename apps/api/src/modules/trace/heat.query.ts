import type { PointContent, Row } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import type { Computed } from '../../platform/database/index.js';

/** One reading at a control point of baking or cooking, of a batch or of what it was made from. */
export interface HeatRow extends Pick<
  Row<'reading'>,
  'id' | 'parameter' | 'figure' | 'unit' | 'seconds' | 'verdict' | 'corrected' | 'instrument' | 'class' | 'at'
> {
  readonly lot: Row<'lot'>['id'];
  readonly limit: Row<'reading'>['judgedBy'];
  readonly basis: Computed<PointContent['basis']>;
}

export interface RecordedUnder {
  readonly lot: Row<'lot'>['id'];
  readonly subject: Row<'reading'>['subject'];
}

/** What was read where lots were baked or cooked, by what each was recorded under: the loads, the run and the make of a batch; a make itself. One query. */
export async function heatOf(
  client: ClientBase,
  organisation: string,
  recordedUnder: readonly RecordedUnder[],
): Promise<readonly HeatRow[]> {
  const { rows } = await client.query<HeatRow>(
    `SELECT DISTINCT ON (r.at, r.id, a.lot) a.lot, r.id, r.parameter, r.figure, r.unit, r.seconds, r.verdict, r.corrected, r.instrument, r.class,
            r.judged_by AS limit, c.content ->> 'basis' AS basis, r.at
     FROM unnest($2::uuid[], $3::uuid[]) a(lot, subject)
     CROSS JOIN LATERAL (SELECT * FROM reading r WHERE r.organisation = $1 AND r.subject = a.subject AND r.point IS NOT NULL OFFSET 0) r
     CROSS JOIN LATERAL (SELECT content FROM control_point c WHERE c.organisation = $1 AND c.id = r.point OFFSET 0) c
     WHERE c.content ->> 'step' IN ('bake', 'cook') ORDER BY r.at, r.id, a.lot`,
    [organisation, recordedUnder.map((u) => u.lot), recordedUnder.map((u) => u.subject)],
  );
  return rows;
}
