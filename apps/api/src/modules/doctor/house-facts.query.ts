import type { ClientBase } from 'pg';
import { hasLeft, rolesInForce } from '../../platform/access/index.js';
import type { Computed, Maybe, TableRow } from '../../platform/database/index.js';

interface Unsealed extends Pick<TableRow<'book'>, 'name'> {
  readonly since: TableRow<'entry'>['recordedAt'];
  readonly lastSeal: Maybe<TableRow<'seal'>>['at'];
}

interface NotCosigned extends Pick<TableRow<'book'>, 'name'> {
  readonly witness: TableRow<'cosignature'>['witness'];
  readonly since: TableRow<'seal'>['at'];
}

interface KeyLost extends Pick<TableRow<'book'>, 'name'> {
  readonly size: TableRow<'keyChange'>['size'];
  readonly at: TableRow<'keyChange'>['at'];
}

/** What the state of a house's service is judged by. Instants are ISO 8601 in UTC. */
export interface HouseFacts {
  /** Who can sign with a PIN, by what they may do. */
  readonly administrators: Computed<number>;
  readonly leads: Computed<number>;
  readonly sitesWithoutPlan: Computed<readonly TableRow<'book'>['name'][]>;
  readonly formulas: Computed<number>;
  readonly tablets: Computed<number>;
  readonly refused: Computed<number>;
  readonly oldestWaiting: Computed<string | null>;
  readonly wrongPinsOfADay: Computed<number>;
  /** How often in thirty days a tablet saw records that do not go on from those that it had seen. */
  readonly historyDiffers: Computed<number>;
  /** Books with records that came since their last seal, and when that was; null where there never was one. */
  readonly unsealed: Computed<readonly Unsealed[]>;
  /** Newest seals, older than two days, that a witness of the settings did not cosign. */
  readonly notCosigned: Computed<readonly NotCosigned[]>;
  /** Statements that the key for seals was lost. */
  readonly keyLost: Computed<readonly KeyLost[]>;
}

const withPin = (role: string): string => `
  (SELECT count(*)::int FROM credential c WHERE c.organisation = $1 AND NOT ${hasLeft('c.person')}
     AND EXISTS (SELECT 1 FROM (${rolesInForce('c.person', '$2')}) r WHERE r.role = '${role}'))`;

/** As the owner, inside the house's fence. */
export async function houseFacts(owner: ClientBase, organisation: string, now: string, witnesses: readonly string[]): Promise<HouseFacts> {
  const { rows } = await owner.query<HouseFacts>(
    `SELECT ${withPin('administrator')} AS administrators, ${withPin('food-safety-lead')} AS leads,
       (SELECT COALESCE(json_agg(b.name ORDER BY b.name), '[]') FROM book b WHERE b.organisation = $1 AND b.type = 'site'
          AND NOT EXISTS (SELECT 1 FROM plan_version v WHERE v.organisation = $1 AND (v.site IS NULL OR v.site = b.id))) AS "sitesWithoutPlan",
       (SELECT count(DISTINCT f.formula)::int FROM formula_version f WHERE f.organisation = $1) AS formulas,
       (SELECT count(*)::int FROM device d WHERE d.organisation = $1 AND d.revoked_at IS NULL) AS tablets,
       (SELECT count(*)::int FROM set_aside s WHERE s.organisation = $1 AND s."as" = 'refused'
          AND NOT EXISTS (SELECT 1 FROM entry e WHERE e.organisation = $1 AND e.id = s.entry)) AS refused,
       (SELECT min(s.received_at) FROM set_aside s WHERE s.organisation = $1 AND s."as" = 'waiting'
          AND NOT EXISTS (SELECT 1 FROM entry e WHERE e.organisation = $1 AND e.id = s.entry)) AS "oldestWaiting",
       (SELECT count(*)::int FROM security_event w WHERE w.organisation = $1 AND w.what = 'pin-wrong'
          AND w.at > $2::timestamptz - interval '24 hours') AS "wrongPinsOfADay",
       (SELECT count(*)::int FROM security_event h WHERE h.organisation = $1 AND h.what = 'history-differs'
          AND h.at > $2::timestamptz - interval '30 days') AS "historyDiffers",
       (SELECT COALESCE(json_agg(json_build_object('name', b.name, 'since', e.recorded_at, 'lastSeal', l.at) ORDER BY b.name), '[]')
          FROM book b LEFT JOIN LATERAL (SELECT size, at FROM seal WHERE organisation = $1 AND book = b.id ORDER BY size DESC LIMIT 1) l ON true
          JOIN entry e ON e.organisation = $1 AND e.book = b.id AND e.seq = COALESCE(l.size, 0)
          WHERE b.organisation = $1) AS unsealed,
       (SELECT COALESCE(json_agg(json_build_object('name', b.name, 'witness', w.key, 'since', l.at) ORDER BY b.name, w.key), '[]')
          FROM book b CROSS JOIN unnest($3::text[]) AS w(key)
          JOIN LATERAL (SELECT size, at FROM seal WHERE organisation = $1 AND book = b.id ORDER BY size DESC LIMIT 1) l ON true
          WHERE b.organisation = $1 AND l.at < $2::timestamptz - interval '48 hours' AND l.size > 0
            AND NOT EXISTS (SELECT FROM cosignature c WHERE c.organisation = $1 AND c.book = b.id AND c.size = l.size AND c.witness = w.key))
         AS "notCosigned",
       (SELECT COALESCE(json_agg(json_build_object('name', b.name, 'size', k.size, 'at', k.at) ORDER BY b.name, k.turn), '[]')
          FROM key_change k JOIN book b ON b.organisation = $1 AND b.id = k.book
          WHERE k.organisation = $1 AND split_part(k.note, E'\\n', 2) = 'key-lost/1') AS "keyLost"`,
    [organisation, now, witnesses],
  );
  const [facts] = rows;
  if (!facts) throw new Error('a statement without a table gave no row');
  return facts;
}

/** What time the database says that it is. */
export async function databaseClock(owner: ClientBase): Promise<string> {
  const { rows } = await owner.query<{ readonly now: Computed<string> }>('SELECT clock_timestamp() AS now');
  return rows[0]?.now ?? '';
}
