import type { PayloadOf } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import type { Computed, TableRow } from '../database/index.js';

/** Whose words: a person of the house, or a supplier or customer. */
export interface Whom extends Pick<TableRow<'person'>, 'organisation' | 'id'> {
  readonly of: Computed<PayloadOf<'words-erased'>['of']>;
}

/** People and parties of one house, or of any, that this is the id of, or the name of now or ever before as far as that still stands: two at most. */
export async function whomCalled(owner: ClientBase, nameOrId: string): Promise<readonly Whom[]> {
  const { rows } = await owner.query<Whom>(
    `SELECT organisation, id, 'person' AS of FROM person WHERE name = $1 OR id::text = lower($1)
     UNION SELECT organisation, party, 'party' FROM party WHERE name = $1 OR party::text = lower($1) ORDER BY 2 LIMIT 2`,
    [nameOrId],
  );
  return rows;
}

/** What stands in the way of erasing, and how old the last record is that rests on the name. */
export interface Standing {
  /** They left, or dealing with them was stopped. */
  readonly gone: Computed<boolean>;
  /** An open case that reaches a supplier or customer; for a person any open case. */
  readonly openCase: Computed<boolean>;
  readonly lastAt: Computed<string | null>;
}

export async function standingOf(client: ClientBase, whom: Whom, now: string): Promise<Standing> {
  const { rows } = await client.query<Standing>(whom.of === 'person' ? ofPerson : ofParty, [whom.organisation, whom.id, now]);
  return rows[0] ?? { gone: false, openCase: true, lastAt: null };
}

/** What is recorded meanwhile waits: it could be a case that needs the name. */
export async function lockBooks(client: ClientBase, { organisation }: Whom): Promise<void> {
  await client.query('SELECT 1 FROM book WHERE organisation = $1 ORDER BY id FOR UPDATE', [organisation]);
}

const open = `SELECT r.id, r.suspect FROM recall_case r WHERE r.organisation = $1
  AND NOT EXISTS (SELECT FROM recall_closed c WHERE c.organisation = $1 AND c.recall = r.id)`;

const ofPerson = `
  SELECT EXISTS (SELECT FROM person_left l WHERE l.organisation = $1 AND l.person = $2 AND l.at <= $3::timestamptz) AS gone,
    EXISTS (${open}) AS "openCase",
    (SELECT max(at) FROM (SELECT l.at FROM person_left l WHERE l.organisation = $1 AND l.person = $2
       UNION ALL SELECT e.recorded_at FROM entry e WHERE e.organisation = $1 AND (e.person = $2 OR e.signed_by = $2)) x) AS "lastAt"`;

/** Lots of an open case: those in its scope, and those under suspicion. */
const ofParty = `
  WITH o AS (${open}),
    lots AS (SELECT s.lot FROM recall_scope_lot s JOIN o ON o.id = s.recall WHERE s.organisation = $1
      UNION SELECT x.lot::uuid FROM o, jsonb_array_elements_text(o.suspect::jsonb) AS x(lot))
  SELECT EXISTS (SELECT FROM party_stopped s WHERE s.organisation = $1 AND s.party = $2 AND s.at <= $3::timestamptz
      AND s.at >= (SELECT max(p.since) FROM party p WHERE p.organisation = $1 AND p.party = $2)) AS gone,
    EXISTS (SELECT FROM recall_contact c JOIN o ON o.id = c.recall WHERE c.organisation = $1 AND c.party = $2)
      OR EXISTS (SELECT FROM departure d JOIN lots USING (lot) WHERE d.organisation = $1 AND d.customer = $2)
      OR EXISTS (SELECT FROM lot l JOIN lots ON lots.lot = l.id WHERE l.organisation = $1 AND l.supplier = $2) AS "openCase",
    (SELECT max(at) FROM (SELECT p.since AS at FROM party p WHERE p.organisation = $1 AND p.party = $2
       UNION ALL SELECT s.at FROM party_stopped s WHERE s.organisation = $1 AND s.party = $2
       UNION ALL SELECT d.at FROM departure d WHERE d.organisation = $1 AND d.customer = $2
       UNION ALL SELECT d.received_at FROM delivery d WHERE d.organisation = $1 AND d.supplier = $2
       UNION ALL SELECT c.at FROM recall_contact c WHERE c.organisation = $1 AND c.party = $2) x) AS "lastAt"`;
