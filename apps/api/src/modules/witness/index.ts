export { openWitness, type WitnessFolder } from './witness-folder.js';
export { witnessServer } from './witness-server.js';
