import type { PointContent, Row } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import type { Computed } from '../../platform/database/index.js';

/** One reading at a control point of baking or cooking, of a batch or of what it was made from. */
export interface HeatRow extends Pick<Row<'reading'>, 'parameter' | 'figure' | 'unit' | 'seconds' | 'verdict' | 'at'> {
  readonly lot: Row<'lot'>['id'];
  readonly limit: Row<'reading'>['judgedBy'];
  readonly basis: Computed<PointContent['basis']>;
}

/** What was read where these lots were baked or cooked: a batch's loads, its run and its make; a make itself. One query. */
export async function heatOf(client: ClientBase, organisation: string, lots: readonly string[]): Promise<readonly HeatRow[]> {
  const { rows } = await client.query<HeatRow>(
    `WITH about(lot, subject) AS (
       SELECT id, id FROM make WHERE organisation = $1 AND id = ANY($2)
       UNION SELECT b.id, s.subject FROM batch b CROSS JOIN LATERAL (
         SELECT b.id UNION SELECT b.run UNION SELECT b.make UNION SELECT l::uuid FROM jsonb_array_elements_text(b.loads) l) AS s(subject)
       WHERE b.organisation = $1 AND b.id = ANY($2))
     SELECT a.lot, r.parameter, r.figure, r.unit, r.seconds, r.verdict, r.judged_by AS limit, c.content ->> 'basis' AS basis, r.at
     FROM about a JOIN reading r ON r.organisation = $1 AND r.subject = a.subject JOIN control_point c ON c.organisation = $1 AND c.id = r.point
     WHERE c.content ->> 'step' IN ('bake', 'cook') ORDER BY r.at, r.id`,
    [organisation, lots],
  );
  return rows;
}
