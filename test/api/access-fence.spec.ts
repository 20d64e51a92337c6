import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type pg from 'pg';
import { servicePool, Tenancy } from '../../apps/api/src/platform/database/index.js';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { House } from '../support/people.js';

/** Tables that hold nothing of any organisation's. */
const notFenced = ['_prisma_migrations'];

let t: TestApp;
let pool: pg.Pool;
let tenancy: Tenancy;
let ours: House;
let theirs: House;
let tables: {
  name: string;
  organisation: string;
  secured: boolean;
  policies: { using: string; check: string | null; roles: string[] }[];
}[];
beforeAll(async () => {
  t = await startTestApp({ clock: new SettableClock('2026-11-25T03:40:00Z') });
  pool = servicePool(t.database.serviceUrl, 2);
  tenancy = new Tenancy(pool);
  [ours, theirs] = [await House.found(t), await House.found(t)];
  await theirs.signedOn('Bea Kerr', ['baker', 'inspector']);
  const { rows } = await pool.query(`
    SELECT c.relname AS name, c.relrowsecurity AS secured, CASE WHEN c.relname = 'organisation' THEN 'id' ELSE 'organisation' END AS organisation,
      (SELECT coalesce(json_agg(json_build_object('using', p.qual, 'check', p.with_check, 'roles', p.roles)), '[]') FROM pg_policies p
        WHERE p.schemaname = 'public' AND p.tablename = c.relname AND p.permissive = 'PERMISSIVE') AS policies
    FROM pg_class c WHERE c.relnamespace = 'public'::regnamespace AND c.relkind IN ('r', 'p') ORDER BY c.relname`);
  tables = rows.filter((r) => !notFenced.includes(r.name));
});
afterAll(async () => {
  await pool.end();
  await t.close();
});

const refused = async (sql: string): Promise<string> =>
  pool.query(sql).then(
    () => 'done',
    (error: Error) => error.message,
  );

describe('the census of the fence, as the service', () => {
  it('finds every table secured, with policies that let see and write one organisation and no other', () => {
    expect(tables.length).toBeGreaterThan(60);
    const one = "id = (NULLIF(current_setting('app.organisation'::text, true), ''::text))::uuid";
    /** What may be seen is worked out once for a statement; what is written is checked row by row. */
    const [seen, written] = [
      'organisation = ( SELECT current_organisation() AS current_organisation)',
      'organisation = current_organisation()',
    ];
    for (const { name, secured, policies } of tables) {
      expect({ name, secured, policies: policies.length }).toEqual({ name, secured: true, policies: 1 });
      for (const { using, check } of policies)
        expect([name, using, check]).toEqual(
          name === 'organisation' ? [name, `(${one})`, `(${one})`] : [name, `(${seen})`, `(${written})`],
        );
    }
  });

  it('finds the organisation first in every key', async () => {
    const { rows } = await pool.query<{ table: string; index: string; first: string }>(
      `
      SELECT c.relname AS table, i.relname AS index, a.attname AS first FROM pg_index x
      JOIN pg_class c ON c.oid = x.indrelid JOIN pg_class i ON i.oid = x.indexrelid JOIN pg_attribute a ON a.attrelid = c.oid AND a.attnum = x.indkey[0]
      WHERE c.relnamespace = 'public'::regnamespace AND c.relname <> ALL($1)`,
      [[...notFenced, 'organisation']],
    );
    expect(rows.length).toBeGreaterThan(100);
    expect(rows.filter((r) => r.first !== 'organisation')).toEqual([]);
  });

  it('sees nothing anywhere without saying for whom', async () => {
    for (const { name } of tables) expect([name, (await pool.query(`SELECT FROM "${name}" LIMIT 1`)).rowCount]).toEqual([name, 0]);
  });

  it('sees one organisation’s rows and none of another’s', async () => {
    let seen = 0;
    for (const { name, organisation } of tables) {
      const counts = await tenancy.reading(theirs.organisation, (client) =>
        client.query<{ theirs: number; others: number }>(
          `SELECT count(*) FILTER (WHERE "${organisation}" = $1) AS theirs, count(*) FILTER (WHERE "${organisation}" <> $1) AS others FROM "${name}"`,
          [theirs.organisation],
        ),
      );
      expect([name, counts.rows[0]?.others]).toEqual([name, 0]);
      if ((counts.rows[0]?.theirs ?? 0) > 0) seen += 1;
    }
    expect(seen).toBeGreaterThanOrEqual(10);
  });

  it('writes nothing into another organisation, not even by moving a row there', async () => {
    const asOurs = (sql: string, ...values: string[]): Promise<pg.QueryResult> =>
      tenancy.inOrganisation(ours.organisation, (client) => client.query(sql, values));
    const insert = 'INSERT INTO credential (organisation, person, hash, set_at, set_by) VALUES ($1, $2, $3, now(), $2)';
    await expect(asOurs(insert, theirs.organisation, theirs.administrator.person, 'x')).rejects.toThrow(/row-level security/);
    expect((await asOurs("UPDATE session SET ended_why = 'x' WHERE organisation = $1", theirs.organisation)).rowCount).toBe(0);
    for (const table of ['session', 'signature_token', 'enrolment_code', 'set_aside', 'viewing', 'guess_count'])
      expect((await asOurs(`DELETE FROM "${table}" WHERE organisation = $1`, theirs.organisation)).rowCount).toBe(0);
    expect((await asOurs('UPDATE person SET organisation = $1', theirs.organisation)).rowCount).toBe(0); // none is of an entry of this transaction
  });

  it('owns nothing, makes nothing, and may neither change what is append-only nor look past the fence', async () => {
    const { rows } = await pool.query(`
      SELECT (SELECT count(*) FROM pg_class WHERE relowner = current_user::regrole) + (SELECT count(*) FROM pg_proc WHERE proowner = current_user::regrole)
           + (SELECT count(*) FROM pg_namespace WHERE nspowner = current_user::regrole) AS owns,
        (SELECT rolsuper OR rolbypassrls OR rolcreaterole OR rolcreatedb FROM pg_roles WHERE rolname = current_user) AS superuser,
        has_schema_privilege('public', 'CREATE') AS makes`);
    expect(rows).toEqual([{ owns: 0, superuser: false, makes: false }]);
    for (const table of ['entry', 'entry_body', 'entry_word', 'sending', 'seal', 'photo', 'draft', 'device', 'credential', 'book'])
      expect(await refused(`DELETE FROM "${table}"`)).toBe(`permission denied for table ${table}`);
    for (const table of ['entry', 'entry_body', 'entry_word', 'sending', 'set_aside', 'seal', 'viewing'])
      expect(await refused(`TRUNCATE "${table}"`)).toBe(`permission denied for table ${table}`);
    for (const table of ['entry', 'entry_body', 'entry_word', 'viewing']) {
      expect(await refused(`UPDATE "${table}" SET organisation = organisation`)).toBe(`permission denied for table ${table}`);
    }
    expect(await refused('UPDATE session SET person = person')).toBe('permission denied for table session');
    expect(await refused('SET ROLE pg_database_owner')).toMatch(/permission denied/);
    expect(await refused('SET row_security = off; SELECT FROM person')).toMatch(/row-level security/);
  });

  it('is told the only organisation where there is one, and nothing with two', async () => {
    expect((await pool.query('SELECT only_organisation() AS id')).rows).toEqual([{ id: null }]);
    const { rows } = await pool.query<{ name: string }>(
      "SELECT proname AS name FROM pg_proc WHERE prosecdef AND pronamespace = 'public'::regnamespace ORDER BY proname",
    );
    // ids, and nothing else; those that look for codes state the fence themselves
    expect(rows.map((r) => r.name)).toEqual([
      'deliveries_by_note_inside',
      'every_organisation',
      'lots_by_code',
      'lots_by_code_inside',
      'only_organisation',
    ]);
  });
});
