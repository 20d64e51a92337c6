import { readFile } from 'node:fs/promises';
import path from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { errorCode } from '../../errors/index.js';

export interface Postmaster {
  readonly pid: number;
  readonly port: number;
  readonly ready: boolean;
}

/** What stands in a cluster's lock file: line 1 the pid, 4 the port, 8 the state (PostgreSQL's miscadmin.h, "lock file contents"). */
export async function readPidFile(cluster: string): Promise<Postmaster | undefined> {
  const text = await readFile(path.join(cluster, 'postmaster.pid'), 'utf8').catch(() => undefined);
  if (!text) return undefined;
  const lines = text.split('\n');
  return { pid: Number(lines[0]), port: Number(lines[3]), ready: lines[7]?.trim() === 'ready' };
}

/** Whether a process of that id exists. */
export function alive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return errorCode(error) === 'EPERM';
  }
}

/** Whether the process is a PostgreSQL server that runs. Only Linux can tell; elsewhere the lock file is believed, as PostgreSQL does itself. */
export async function isPostmaster(pid: number): Promise<boolean> {
  if (!alive(pid)) return false;
  if (process.platform !== 'linux') return true;
  const stat = await readFile(`/proc/${pid}/stat`, 'utf8').catch(() => '');
  const [, program, state] = /^\d+ \((.*)\) (\S)/s.exec(stat) ?? [];
  return program !== undefined && program.startsWith('postgres') && state !== 'Z';
}

/** Asks again every few milliseconds until there is an answer; undefined when the time is over. */
export async function until<T>(answer: () => Promise<T | undefined>, limitMs: number): Promise<T | undefined> {
  const end = performance.now() + limitMs;
  for (;;) {
    const found = await answer();
    if (found !== undefined || performance.now() > end) return found;
    await wait(15);
  }
}
