// npm run demo -- --out DIR: the main job from nothing without a person, prepared as for a start.
import { checkNode, prepare, say } from './prepare.mjs';

checkNode();
await prepare('packages', 'client', 'build');
const { demoCommand } = await import('../../../apps/api/dist/demo/run/command.js');
process.exit(await demoCommand(process.argv.slice(2), say)); // an interrupted run may have left something open that would keep the process alive
