// npm run ledger -- verify | rebuild: the commands of apps/api/src/cli.ts, prepared as for a start.
import { checkNode, prepare } from './prepare.mjs';

checkNode();
await prepare('packages', 'client', 'build');
const { run } = await import('../../../apps/api/dist/cli.js');
process.exitCode = await run(['ledger', ...process.argv.slice(2)]);
