import type { PointContent, Row } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import type { Computed } from '../../platform/database/index.js';

/** One reading at a control point of baking or cooking, of a batch or of what it was made from. */
export interface HeatRow extends Pick<Row<'reading'>, 'parameter' | 'figure' | 'unit' | 'seconds' | 'verdict' | 'at'> {
  readonly lot: Row<'lot'>['id'];
  readonly limit: Row<'reading'>['judgedBy'];
  readonly basis: Computed<PointContent['basis']>;
}

/** As `loadsOfBatch` has it: each load that was named held the run, and together they held as many as were counted. */
const namedLoadsHeldIt = `(
  SELECT count(*) FILTER (WHERE h.pieces IS NULL) = 0 AND coalesce(sum(h.pieces), 0) >= b.pieces + b.rejects AND count(*) > 0
  FROM jsonb_array_elements_text(b.loads) n LEFT JOIN LATERAL (
    SELECT sum(k.pieces) AS pieces FROM load_line k WHERE k.organisation = $1 AND k.run = b.run AND k.load = n::uuid) h ON true)`;

/** What was read where these lots were baked or cooked: a batch's loads, its run and its make; a make itself. One query. */
export async function heatOf(client: ClientBase, organisation: string, lots: readonly string[]): Promise<readonly HeatRow[]> {
  const { rows } = await client.query<HeatRow>(
    `SELECT DISTINCT ON (r.at, r.id, a.lot) a.lot, r.parameter, r.figure, r.unit, r.seconds, r.verdict, r.judged_by AS limit, c.content ->> 'basis' AS basis, r.at
     FROM unnest($2::uuid[]) a(lot) CROSS JOIN LATERAL (
       (SELECT m.id AS subject FROM make m WHERE m.organisation = $1 AND m.id = a.lot OFFSET 0)
       UNION ALL
       (SELECT s.subject FROM batch b CROSS JOIN LATERAL (
         SELECT b.id UNION ALL SELECT b.run UNION ALL SELECT b.make UNION ALL 
           (SELECT n::uuid FROM jsonb_array_elements_text(b.loads) n UNION SELECT l.load FROM load_line l
             WHERE l.organisation = $1 AND l.run = b.run AND NOT ${namedLoadsHeldIt})) AS s(subject)
        WHERE b.organisation = $1 AND b.id = a.lot OFFSET 0)) s
     CROSS JOIN LATERAL (SELECT * FROM reading r WHERE r.organisation = $1 AND r.subject = s.subject AND r.point IS NOT NULL OFFSET 0) r
     CROSS JOIN LATERAL (SELECT content FROM control_point c WHERE c.organisation = $1 AND c.id = r.point OFFSET 0) c
     WHERE c.content ->> 'step' IN ('bake', 'cook') ORDER BY r.at, r.id, a.lot`,
    [organisation, lots],
  );
  return rows;
}
