export { inNameOf, onlyInNameOf, type As, type Token, type Tokens } from './as.js';
export {
  ask,
  asking,
  askingIfChanged,
  type Ask,
  type Asking,
  type IfChanged,
  type Init,
  type InitOf,
  type PathOf,
  type Reads,
} from './ask.js';
export { type Reply, type WireProblem } from './reply.js';
