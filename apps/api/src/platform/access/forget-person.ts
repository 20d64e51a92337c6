import type { ClientBase } from 'pg';

/**
 * Ends what a person could sign on with, and takes the network addresses out of the notes about them at the door: PIN, sessions, counts of PINs,
 * tokens for signatures that were not used. A session that sent an entry stays with it, ended, since it says how the entry came. As the owner.
 */
export async function forgetPerson(client: ClientBase, organisation: string, person: string, now: string): Promise<void> {
  const of = [organisation, person];
  await client.query('DELETE FROM credential WHERE organisation = $1 AND person = $2', of);
  await client.query('DELETE FROM signature_token WHERE organisation = $1 AND person = $2 AND used_by IS NULL', of);
  await client.query(`DELETE FROM guess_count WHERE organisation = $1 AND strpos(key, $2::text) > 0`, of);
  await client.query(
    `DELETE FROM session t WHERE t.organisation = $1 AND t.person = $2
       AND NOT EXISTS (SELECT FROM sending s WHERE s.organisation = t.organisation AND s.session = t.id)
       AND NOT EXISTS (SELECT FROM viewing v WHERE v.organisation = t.organisation AND v.session = t.id)`,
    of,
  );
  await client.query(`UPDATE session SET ended_at = $3, ended_why = 'left' WHERE organisation = $1 AND person = $2 AND ended_at IS NULL`, [
    ...of,
    now,
  ]);
  await client.query('UPDATE security_event SET address = NULL WHERE organisation = $1 AND person = $2 AND address IS NOT NULL', of);
}
