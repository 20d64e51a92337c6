import { spawn, type ChildProcess } from 'node:child_process';
import { readFile } from 'node:fs/promises';
import { createServer } from 'node:net';
import path from 'node:path';

export const root = path.resolve(import.meta.dirname, '../..');
const starter = path.join(root, 'libs/tooling/bin/start.mjs');

/** One `npm start`, as a process of its own. */
export class Start {
  output = '';
  readonly ended: Promise<number | null>;
  private readonly child: ChildProcess;
  private readonly listeners = new Set<() => void>();

  constructor(
    private readonly folder: string,
    readonly port: number,
    command: readonly [string, ...string[]] = [process.execPath, starter],
    env: Record<string, string> = {},
  ) {
    const [program, ...words] = command;
    const { npm_lifecycle_event: _ours, DATABASE_URL: _other, OWNER_DATABASE_URL: _owner, ...rest } = process.env;
    this.child = spawn(program, words, {
      cwd: root,
      env: { ...rest, DATA_DIR: folder, PORT: String(port), SEED_DEMO: 'no', ...env },
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    for (const stream of [this.child.stdout, this.child.stderr]) stream?.on('data', (chunk: Buffer) => this.heard(chunk.toString()));
    this.ended = new Promise((resolve) =>
      this.child.once('close', (code) => {
        resolve(code);
        this.heard('');
      }),
    );
  }

  /** Waits until the words are printed; fails with the whole output when the process ends before. */
  async says(words: RegExp): Promise<void> {
    const printed = new Promise<void>((resolve) => {
      const look = (): void => {
        if (words.test(this.output)) resolve();
      };
      this.listeners.add(look);
      look();
    });
    const over = this.ended.then((code) => {
      if (!words.test(this.output)) throw new Error(`ended with ${code} before it said ${String(words)}:\n${this.output}`);
    });
    await Promise.race([printed, over]);
  }

  /** Waits for its own line, after these words where given: a log may name the address health/ready before the port is open. */
  ready(after = ''): Promise<void> {
    return this.says(new RegExp(`${after}[^]* s {2}ready\\n`));
  }

  kill(signal: NodeJS.Signals): void {
    this.child.kill(signal);
  }

  async stop(): Promise<number | null> {
    this.kill('SIGTERM');
    return this.ended;
  }

  async health(): Promise<unknown> {
    return (await fetch(`http://127.0.0.1:${this.port}/api/v1/health/ready`)).json();
  }

  /** The process of the database of this start's folder. */
  databasePid(): Promise<number> {
    return databasePid(this.folder);
  }

  private heard(words: string): void {
    this.output += words;
    for (const look of this.listeners) look();
  }
}

/** What ends a service that npm was asked to end: the shell between them gets the signal and ends without passing it on. */
export const underShell: readonly [string, ...string[]] = ['sh', '-c', `"${process.execPath}" "${starter}"; true`];

export async function databasePid(folder: string): Promise<number> {
  return Number((await readFile(path.join(folder, 'postgres/postmaster.pid'), 'utf8')).split('\n')[0]);
}

/** Whether a process runs; one that has ended but was not collected does not. */
export async function runs(pid: number): Promise<boolean> {
  try {
    process.kill(pid, 0);
  } catch {
    return false;
  }
  const stat = await readFile(`/proc/${pid}/stat`, 'utf8').catch(() => '');
  return !/\) Z/.test(stat);
}

export function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const server = createServer()
      .once('error', reject)
      .listen(0, '127.0.0.1', () => {
        const address = server.address();
        server.close(() => (typeof address === 'object' && address ? resolve(address.port) : reject(new Error('no free port'))));
      });
  });
}
