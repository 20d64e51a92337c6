// Packages, generated client and build, as a fresh clone needs them.
import { checkNode, prepare } from './prepare.mjs';

checkNode();
await prepare('packages', 'client', 'build');
