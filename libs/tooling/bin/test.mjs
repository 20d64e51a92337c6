// npm test [-- what Jest takes]: the packages and the generated client if they are missing, then every test. The whole suite starts the built service, so
// it is built before: inside a test that would count as the test's own time.
import { spawn } from 'node:child_process';
import { availableParallelism } from 'node:os';
import path from 'node:path';
import { checkNode, prepare, root } from './prepare.mjs';

checkNode();
await prepare('packages', process.argv.length > 2 ? 'client' : 'build');
/** One more than there are processors: a test that waits for its database leaves one of them idle. */
const workers = availableParallelism() + 1;
const jest = path.join(root, 'node_modules/jest/bin/jest.js');
const child = spawn(
  process.execPath,
  [
    '--disable-warning=ExperimentalWarning',
    jest,
    '--config',
    'libs/tooling/jest.config.mjs',
    `--maxWorkers=${workers}`,
    ...process.argv.slice(2),
  ],
  { cwd: root, stdio: 'inherit' },
);
for (const signal of ['SIGINT', 'SIGTERM']) process.on(signal, () => child.kill(signal));
child.once('close', (code) => {
  process.exitCode = code ?? 1;
});
