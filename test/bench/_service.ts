import { spawn, type ChildProcess } from 'node:child_process';
import { chmod, mkdtemp, rm } from 'node:fs/promises';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import path from 'node:path';
import pg from 'pg';
import { createOrganisation } from '../../apps/api/dist/platform/access/bootstrap.js';
import { EmbeddedPostgres, createDatabase, prepareDatabase, serviceUrlFrom } from '../../apps/api/dist/platform/database/for-tools.js';
import { ownEntry } from '../../apps/api/dist/platform/ledger/own-entry.js';

const root = path.resolve(import.meta.dirname, '../..');

export async function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const s = createServer()
      .once('error', reject)
      .listen(0, '127.0.0.1', () => {
        const at = s.address();
        s.close(() => (typeof at === 'object' && at ? resolve(at.port) : reject(new Error('no port'))));
      });
  });
}

/** A PostgreSQL as a shop has it: fsync on, nothing tuned but what the service sets. */
export async function benchDatabase(): Promise<{
  url: (name: string) => Promise<string>;
  serviceUrl: (ownerUrl: string) => string;
  stop: () => Promise<void>;
}> {
  const base = await mkdtemp(path.join(tmpdir(), 'bakehouse-bench-'));
  await chmod(base, 0o711);
  const server = await EmbeddedPostgres.start({ cluster: path.join(base, 'postgres') });
  return {
    url: async (name) => {
      await createDatabase(server.url('postgres'), name);
      await prepareDatabase(server.url(name));
      return server.url(name);
    },
    serviceUrl: serviceUrlFrom,
    stop: async () => {
      await server.stop();
      await rm(base, { recursive: true, force: true });
    },
  };
}

/** A program of ours in a process of its own, once it answers. */
export async function startProgram(file: string, env: Record<string, string>, ready: string): Promise<ChildProcess> {
  const child = spawn(process.execPath, [path.join(root, file)], { env: { ...process.env, ...env }, stdio: ['ignore', 'pipe', 'inherit'] });
  process.once('exit', () => child.kill('SIGKILL')); // a bench that fails leaves nothing running
  await new Promise<void>((resolve, reject) => {
    child.stdout?.on('data', (chunk: Buffer) => {
      if (chunk.toString().includes(ready)) resolve();
    });
    child.once('exit', (code: number | null) => reject(new Error(`${file} ended with ${code}`)));
  });
  return child;
}

export interface Founded {
  readonly token: string;
  readonly organisation: string;
  readonly sites: readonly string[];
}

/** A business with so many sites and an owner who bakes, signed on over HTTP. */
export async function found(ownerUrl: string, base: string, sites: number): Promise<Founded> {
  const owner = new pg.Client({ connectionString: ownerUrl, pipeline: true });
  await owner.connect();
  const list = Array.from({ length: sites }, (_, i) => ({ name: `Site ${i}`, zone: 'Europe/London' }));
  const [first, ...more] = list;
  if (!first) throw new Error('at least one site');
  const created = await createOrganisation(
    owner,
    { name: 'Bench', sites: [first, ...more], administrator: { name: 'Bench', pin: '739158' } },
    { now: () => new Date(Date.now()) },
  );
  await owner.query('ANALYZE');
  await owner.end();
  const post = async (where: string, body: unknown, token?: string): Promise<Record<string, unknown>> => {
    const response = await fetch(`${base}/api/v1${where}`, {
      method: 'POST',
      headers: { 'content-type': 'application/json', ...(token ? { authorization: `Bearer ${token}` } : {}) },
      body: JSON.stringify(body),
    });
    return (await response.json()) as Record<string, unknown>;
  };
  const session = await post('/sign-on', { organisation: created.organisation, person: created.administrator, pin: '739158' });
  const token = String(session['token']);
  const id = `0190a6d0-7b3c-7000-8000-${created.organisation.slice(-12)}`;
  const payload = { person: created.administrator, role: 'manager', site: null, until: null } as const;
  const entry = ownEntry({ id, kind: 'role-given', payload }, new Date(Date.now()));
  const { signature } = await post('/signatures', { pin: '739158', entry }, token);
  const given = await post('/organisation/entries', [{ ...entry, send: { signature } }], token);
  if (JSON.stringify(given).includes('refused')) throw new Error(JSON.stringify(given));
  return { token, organisation: created.organisation, sites: created.sites };
}
