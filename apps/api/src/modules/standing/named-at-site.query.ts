import type { Row } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import type { Computed } from '../../platform/database/index.js';
import { codeNow, type BookRef } from '../../platform/ledger/index.js';
import { cameThereSql } from './was-there.query.js';

/** A lot on hold as a list names it. */
export interface HeldNamed extends Pick<Row<'lot'>, 'name' | 'type'> {
  readonly lot: Row<'lot'>['id'];
  readonly code: Computed<Row<'lot'>['code']>;
}
interface HeldRow extends HeldNamed {
  readonly held: Computed<boolean>;
  readonly here: Computed<boolean>;
  readonly alike: Computed<boolean>;
}
export interface NamedAtSite {
  /** The site's own lots, and those that are there all the same, the newest first. */
  readonly here: readonly HeldNamed[];
  /** Those that may be one lot of the supplier's with one that came to the site (`isAlike` in records), wherever they are. */
  readonly alike: readonly Row<'lot'>['id'][];
  /** What an open concern reaches and is the site's own or came there, on hold or gone. */
  readonly own: ReadonlySet<Row<'lot'>['id']>;
}
interface Under {
  readonly held: ReadonlyMap<string, unknown>;
  readonly reached: ReadonlySet<Row<'lot'>['id']>;
  readonly inFront: readonly Row<'lot'>['id'][];
}

const hasItsLike = `l.code_state <> 'own' AND EXISTS (SELECT FROM unnest('{received,placeholder}'::text[]) t(type) CROSS JOIN LATERAL (
  SELECT FROM (SELECT o.id, ${codeNow('o')} AS code FROM lot o WHERE o.organisation = $1 AND o.material = l.material AND o.type = t.type AND o.book = $2
    AND o.code_state <> 'own' AND o.id <> l.id OFFSET 0) o WHERE lot_code_key(o.code) = lot_code_key(${codeNow('l')}) LIMIT 1) one)`;

/**
 * Of these lots the ones that concern a site: what the site itself recorded something about came there, wherever it was received or made; and a site that
 * has the like of one is told of it.
 */
export async function namedAtSite(
  client: ClientBase,
  { organisation, id }: BookRef,
  { held, reached, inFront }: Under,
): Promise<NamedAtSite> {
  const lots = [...held.keys()];
  const gone = [...reached].filter((lot) => !held.has(lot));
  if (lots.length + gone.length === 0) return { here: [], alike: [], own: new Set() };
  const { rows } = await client.query<HeldRow>({
    name: 'on hold, named at a site',
    text: `SELECT l.id AS lot, l.name, l.type, coalesce(l.code, b.code) AS code, l.id = ANY($3) AS held, s.here, s.alike
     FROM lot l LEFT JOIN batch b ON b.organisation = l.organisation AND b.id = l.id CROSS JOIN LATERAL (
       SELECT (l.book = $2 OR l.id = ANY($4) OR ${cameThereSql('l.id', '$2')}) AS here, (l.id = ANY($3) AND ${hasItsLike}) AS alike OFFSET 0) s
     WHERE l.organisation = $1 AND l.id = ANY($5) AND (s.here OR s.alike) ORDER BY l.at DESC, l.id`,
    values: [organisation, id, lots, inFront, [...lots, ...gone]],
  });
  return {
    here: rows.flatMap(({ held: isHeld, here: isHere, alike: _alike, ...row }) => (isHeld && isHere ? [row] : [])),
    alike: rows.flatMap((row) => (row.alike ? [row.lot] : [])),
    own: new Set(rows.flatMap((row) => (row.here ? [row.lot] : []))),
  };
}
