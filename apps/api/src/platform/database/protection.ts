import { createHash } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import path from 'node:path';
import type { ClientBase } from 'pg';
import { projectRoot } from '../config/index.js';
import { serviceRole } from './roles.js';
import type { Computed } from './row-types.js';

/** The locks of a database that the migrations made, one fact a line. A test holds it against the migrations. */
export const protectionFile = path.join(projectRoot, 'prisma/protection.txt');

interface Fact {
  readonly fact: Computed<string>;
  readonly body: Computed<string | null>;
}

const ours = "c.relnamespace = 'public'::regnamespace AND c.relkind IN ('r', 'p', 'v', 'm')";
const grantee = `CASE g.grantee WHEN 0 THEN 'everybody' ELSE g.grantee::regrole::text END`;
const mayPass = (role: string): string => `CASE WHEN ${role}.rolsuper THEN 'is a superuser'
  WHEN ${role}.rolbypassrls THEN 'passes row security' WHEN ${role}.rolcreaterole THEN 'may make roles' WHEN ${role}.rolreplication THEN 'may replicate' END`;
const never = "NOT EXISTS (SELECT FROM pg_depend d WHERE d.objid = p.oid AND d.deptype = 'e')";

/**
 * Row security and its policies, what anybody but the owner may do, triggers and rules, functions, and what the service's role is and belongs to: all
 * that keeps the service, and anybody who logs in as it, from changing what was recorded or passing the fence.
 */
const facts = `
  SELECT format('%s: row security %s%s', c.relname, CASE WHEN c.relrowsecurity THEN 'on' ELSE 'off' END, CASE WHEN c.relforcerowsecurity THEN ', for its owner too' ELSE '' END) AS fact, NULL AS body
    FROM pg_class c WHERE ${ours}
  UNION ALL SELECT format('%s: policy %s, %s %s for %s using %s check %s', tablename, policyname, lower(permissive), cmd, array_to_string(roles, '+'), qual, with_check), NULL
    FROM pg_policies WHERE schemaname = 'public'
  UNION ALL SELECT format('%s: %s may %s', c.relname, ${grantee}, string_agg(g.privilege_type, ', ' ORDER BY g.privilege_type)), NULL
    FROM pg_class c CROSS JOIN LATERAL aclexplode(c.relacl) g WHERE ${ours} AND g.grantee <> c.relowner GROUP BY c.relname, g.grantee
  UNION ALL SELECT format('%s.%s: %s may %s', c.relname, a.attname, ${grantee}, string_agg(g.privilege_type, ', ' ORDER BY g.privilege_type)), NULL
    FROM pg_class c JOIN pg_attribute a ON a.attrelid = c.oid CROSS JOIN LATERAL aclexplode(a.attacl) g
    WHERE ${ours} AND g.grantee <> c.relowner GROUP BY c.relname, a.attname, g.grantee
  UNION ALL SELECT format('%s: trigger %s, %s: %s', c.relname, t.tgname, CASE t.tgenabled WHEN 'O' THEN 'on' WHEN 'D' THEN 'off' ELSE 'on at other times' END, pg_get_triggerdef(t.oid)), NULL
    FROM pg_trigger t JOIN pg_class c ON c.oid = t.tgrelid WHERE ${ours} AND NOT t.tgisinternal
  UNION ALL SELECT format('%s: rule %s', tablename, rulename), definition FROM pg_rules WHERE schemaname = 'public'
  UNION ALL SELECT format('function %s(%s): ', p.proname, pg_get_function_identity_arguments(p.oid)), pg_get_functiondef(p.oid)
    FROM pg_proc p WHERE p.pronamespace = 'public'::regnamespace AND p.prokind IN ('f', 'p') AND ${never}
  UNION ALL SELECT format('function %s(%s): %s may %s', p.proname, pg_get_function_identity_arguments(p.oid), ${grantee}, g.privilege_type), NULL
    FROM pg_proc p CROSS JOIN LATERAL aclexplode(coalesce(p.proacl, acldefault('f', p.proowner))) g
    WHERE p.pronamespace = 'public'::regnamespace AND g.grantee <> p.proowner AND ${never}
  UNION ALL SELECT format('%s: %s may %s', 'schema public', ${grantee}, string_agg(g.privilege_type, ', ' ORDER BY g.privilege_type)), NULL
    FROM pg_namespace n CROSS JOIN LATERAL aclexplode(n.nspacl) g WHERE n.nspname = 'public' AND g.grantee <> n.nspowner GROUP BY g.grantee
  UNION ALL SELECT format('role %s: %s', $1::text, ${mayPass('r')}), NULL FROM pg_roles r WHERE r.rolname = $1 AND ${mayPass('r')} IS NOT NULL
  UNION ALL SELECT format('role %s: belongs to %s', $1::text, b.rolname), NULL
    FROM pg_roles r JOIN pg_auth_members m ON m.member = r.oid JOIN pg_roles b ON b.oid = m.roleid WHERE r.rolname = $1
  UNION ALL SELECT format('role %s: owns %s', $1::text, c.relname), NULL
    FROM pg_class c WHERE ${ours} AND c.relowner::regrole::text = $1
  UNION ALL SELECT format('setting of %s: %s', CASE s.setrole WHEN 0 THEN 'this database' ELSE s.setrole::regrole::text END, v), NULL
    FROM pg_db_role_setting s CROSS JOIN LATERAL unnest(s.setconfig) v
    WHERE s.setdatabase IN (0, (SELECT oid FROM pg_database WHERE datname = current_database())) AND (s.setrole = 0 OR s.setrole::regrole::text = $1)
      AND split_part(v, '=', 1) IN ('session_replication_role', 'row_security', 'search_path', 'app.organisation')`;

const digest = (text: string): string => createHash('sha256').update(text).digest('hex').slice(0, 16);

/** The locks of this database, one fact a line, in order. */
export async function protectionOf(owner: ClientBase): Promise<readonly string[]> {
  const { rows } = await owner.query<Fact>(facts, [serviceRole]);
  return rows.map(({ fact, body }) => `${fact}${body === null ? '' : digest(body)}`.replaceAll(/\s+/g, ' ').trim()).sort();
}

/** What should be there and is not, and what is there and should not be. */
export interface ProtectionDiffers {
  readonly gone: readonly string[];
  readonly added: readonly string[];
}

export async function protectionDiffers(owner: ClientBase): Promise<ProtectionDiffers> {
  const expected = (await readFile(protectionFile, 'utf8')).split('\n').filter((line) => line !== '');
  const found = await protectionOf(owner);
  const [wanted, there] = [new Set(expected), new Set(found)];
  return { gone: expected.filter((f) => !there.has(f)), added: found.filter((f) => !wanted.has(f)) };
}
