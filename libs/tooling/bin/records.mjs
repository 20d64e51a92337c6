// npm run records -- verify | rebuild | begin | purge | …: the commands of apps/api/src/cli.ts, prepared as for a start.
import { checkNode, prepare } from './prepare.mjs';

checkNode();
await prepare('packages', 'client', 'build');
const { run } = await import('../../../apps/api/dist/cli.js');
const words = process.argv.slice(2);
process.exitCode = await run(words);
