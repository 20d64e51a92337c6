import type { Row } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import type { Computed } from '../../platform/database/index.js';

interface Named {
  readonly id: Row<'lot'>['id'];
  readonly name: Computed<string>;
}

/** What lots (makes, runs and batches are lots too), loads, materials, parties, formula versions, control points and instruments are called. One query. */
export async function namesOf(client: ClientBase, organisation: string, ids: readonly string[]): Promise<ReadonlyMap<string, string>> {
  const { rows } = await client.query<Named>(
    `SELECT l.id, concat_ws(', ', l.name, coalesce(b.code, l.code)) AS name FROM lot l LEFT JOIN batch b ON b.organisation = $1 AND b.id = l.id
       WHERE l.organisation = $1 AND l.id = ANY($2)
     UNION ALL SELECT x.load, string_agg(DISTINCT x.product_name, ', ' ORDER BY x.product_name) FROM load_line x WHERE x.organisation = $1 AND x.load = ANY($2) GROUP BY x.load
     UNION ALL (SELECT DISTINCT ON (s.material) s.material, s.name FROM specification s WHERE s.organisation = $1 AND s.material = ANY($2) ORDER BY s.material, s.since DESC, s.seq DESC)
     UNION ALL (SELECT DISTINCT ON (p.party) p.party, p.name FROM party p WHERE p.organisation = $1 AND p.party = ANY($2) AND p.name IS NOT NULL ORDER BY p.party, p.since DESC, p.seq DESC)
     UNION ALL SELECT v.id, concat_ws(', version ', v.name, v.number) FROM formula_version v WHERE v.organisation = $1 AND v.id = ANY($2)
     UNION ALL SELECT c.id, c.content ->> 'name' FROM control_point c WHERE c.organisation = $1 AND c.id = ANY($2)
     UNION ALL SELECT i.id, i.name FROM instrument i WHERE i.organisation = $1 AND i.id = ANY($2)`,
    [organisation, ids],
  );
  return new Map(rows.map((r) => [r.id, r.name]));
}
