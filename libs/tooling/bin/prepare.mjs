// Brings a fresh clone to where it can run: packages from the lock, the generated client, the build. Imports nothing but Node itself.
import { spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';

export const root = path.resolve(import.meta.dirname, '../../..');
const cache = path.join(root, '.cache');
const at = (...parts) => path.join(root, ...parts);

/** One line of progress, with the seconds since the process began. */
export const say = (line) => process.stdout.write(`${(performance.now() / 1000).toFixed(1).padStart(6)} s  ${line}\n`);

export function checkNode() {
  const [major, minor] = process.versions.node.split('.').map(Number);
  if (major > 20 || (major === 20 && minor >= 19)) return;
  process.stderr.write(`Node ${process.versions.node} is too old: 20.19 or newer is needed.\n`);
  process.exit(1);
}

/** Does what of `steps` ('packages', 'client', 'build') is not done yet; one process at a time. */
export async function prepare(...steps) {
  await alone(async () => {
    if (steps.includes('packages') && !packagesFit())
      await step('installing the packages of the lock (half a minute or so)', npm(), [
        'ci',
        '--include=dev',
        '--no-audit',
        '--no-fund',
        '--loglevel=error',
      ]);
    if (steps.includes('client') || steps.includes('build')) {
      await unlessDone(
        'client',
        ['prisma/schema', 'libs/tooling/prisma.config.ts', 'package-lock.json'],
        ['apps/api/src/generated/prisma/client.ts'],
        () =>
          step(
            'generating the database client',
            [process.execPath],
            [at('node_modules/prisma/build/index.js'), 'generate', '--config', 'libs/tooling/prisma.config.ts'],
          ),
      );
    }
    if (steps.includes('build')) {
      await unlessDone(
        'build',
        ['libs', 'apps', 'prisma/schema', 'tsconfig.json', 'package-lock.json'],
        ['apps/api/dist/main.js', 'apps/web/dist/index.html'],
        async () => {
          await step('building the service', [process.execPath], [at('node_modules/typescript/bin/tsc'), '-b']);
          // Set whatever the shell says: a page built for development is a third larger and slow.
          await step(
            'building the pages',
            [process.execPath],
            [at('node_modules/vite/bin/vite.js'), 'build', '--logLevel', 'warn'],
            at('apps/web'),
            { NODE_ENV: 'production' },
          );
        },
      );
    }
  });
}

/** Whether node_modules holds what the lock asks for: npm writes its own list last, so a half-made one is noticed. */
function packagesFit() {
  const read = (file) => (existsSync(file) ? JSON.parse(readFileSync(file, 'utf8')).packages : undefined);
  const [asked, there] = [read(at('package-lock.json')), read(at('node_modules/.package-lock.json'))];
  if (!there) return false;
  return Object.entries(asked).every(
    ([name, { version, link, optional }]) => !name.startsWith('node_modules/') || link || optional || there[name]?.version === version,
  );
}

async function unlessDone(name, sources, results, work) {
  const stamp = path.join(cache, name);
  const hash = hashOf(sources);
  if (results.every((file) => existsSync(at(file))) && existsSync(stamp) && readFileSync(stamp, 'utf8') === hash) return;
  rmSync(stamp, { force: true });
  await work();
  writeFileSync(stamp, hash);
}

const skipped = new Set(['node_modules', 'dist', 'generated']);

/** A hash of the names and bytes of everything that goes into a build. */
function hashOf(sources) {
  const hash = createHash('sha256');
  const add = (file) => hash.update(path.relative(root, file)).update('\0').update(readFileSync(file)).update('\0');
  const walk = (folder) => {
    for (const entry of readdirSync(folder, { withFileTypes: true }).sort((a, b) => (a.name < b.name ? -1 : 1))) {
      const file = path.join(folder, entry.name);
      if (entry.isDirectory()) {
        if (!skipped.has(entry.name)) walk(file);
      } else if (entry.isFile() && !entry.name.includes('.spec.')) add(file);
    }
  };
  for (const source of sources.map((s) => at(s)))
    if (source.includes('.', source.lastIndexOf(path.sep))) add(source);
    else walk(source);
  return hash.digest('hex');
}

const npm = () =>
  process.env.npm_execpath ? [process.execPath, process.env.npm_execpath] : [process.platform === 'win32' ? 'npm.cmd' : 'npm'];

/** Runs one of our programs; its output is shown only when it fails. A long one says that it is still running. */
async function step(title, [program, ...first], args, cwd = root, env = {}) {
  say(title);
  const began = performance.now();
  const child = spawn(program, [...first, ...args], {
    cwd,
    env: { ...process.env, ...env },
    stdio: ['ignore', 'pipe', 'pipe'],
    shell: program.endsWith('.cmd'),
    windowsHide: true,
  });
  let words = '';
  for (const stream of [child.stdout, child.stderr])
    stream.on('data', (chunk) => {
      words += chunk;
    });
  const still = setInterval(() => say(`  … still ${title.split(' (')[0]}`), 10_000);
  const stop = () => child.kill();
  process.once('SIGINT', stop).once('SIGTERM', stop);
  const code = await new Promise((resolve, reject) => child.once('error', reject).once('close', resolve)).finally(() => {
    clearInterval(still);
    process.off('SIGINT', stop).off('SIGTERM', stop);
  });
  if (code === 0) return say(`  done in ${((performance.now() - began) / 1000).toFixed(1)} s`);
  process.stderr.write(`${words}\nThis failed: ${title}.\n`);
  process.exit(1);
}

/** Two that start at the same time do not build over each other: the second waits, and finds it done. */
async function alone(work) {
  const lock = path.join(cache, 'preparing');
  mkdirSync(cache, { recursive: true });
  for (let told = false; ; await wait(250)) {
    try {
      writeFileSync(lock, String(process.pid), { flag: 'wx' });
      break;
    } catch (error) {
      if (error.code !== 'EEXIST') throw error;
    }
    const other = Number(existsSync(lock) && readFileSync(lock, 'utf8'));
    if (other > 0 && (other === process.pid || !exists(other)))
      rmSync(lock, { force: true }); // the process that held it was killed
    else if (!told) {
      told = true;
      say(`process ${other} is installing or building here; waiting for it`);
    }
  }
  const release = () => rmSync(lock, { force: true });
  process.once('exit', release);
  try {
    await work();
  } finally {
    process.off('exit', release);
    release();
  }
}

function exists(pid) {
  try {
    return process.kill(pid, 0);
  } catch (error) {
    return error.code === 'EPERM';
  }
}
