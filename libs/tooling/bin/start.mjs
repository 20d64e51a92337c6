// npm start: everything from a fresh clone to a running service. Imports nothing but Node itself until the packages are there.
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { checkNode, prepare, root, say } from './prepare.mjs';

checkNode();
const running = process.env.DATABASE_URL ? undefined : await findRunning();
if (running) {
  say(`Bakehouse Ledger is running already: ${running}`);
} else {
  await prepare('packages', 'client', 'build');
  if (process.env.npm_lifecycle_event !== undefined) endWithParent();
  await import('../../../apps/api/dist/main.js');
}

/** npm passes SIGTERM to the shell between it and us, which ends without passing it on: the shell's end is the signal. */
function endWithParent() {
  const parent = process.ppid;
  const watch = setInterval(() => {
    if (process.ppid === parent) return;
    clearInterval(watch); // once: a second signal after two seconds means that somebody does not want to wait
    process.kill(process.pid, 'SIGTERM');
  }, 500).unref();
}

/** The service that has our data folder, where it answers: then nothing needs to be built. The service's own start checks again, more closely. */
async function findRunning() {
  try {
    const { url, instance } = JSON.parse(readFileSync(path.resolve(root, process.env.DATA_DIR || '.data', 'running.json'), 'utf8'));
    const answer = await fetch(`${url}/api/v1/health`, { signal: AbortSignal.timeout(2000) }).then((response) => response.json());
    return answer.instance === instance ? url : undefined;
  } catch {
    return undefined;
  }
}
