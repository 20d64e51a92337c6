// The bad clients of `neighbours.ts`, in a process of their own: says when all have come, goes when told to, and says how often one was let go.
import { Crowd } from './_crowd.js';

const [port = '', count = ''] = process.argv.slice(2);
const crowd = new Crowd(Number(port), '127.0.0.2');
await crowd.come(Number(count));
process.once('message', () => {
  crowd.go();
  process.send?.(crowd.letGo, () => process.exit(0));
});
process.send?.('here');
