import { Threads } from '../../platform/work/index.js';
import type { Answered, Asked } from './calculate-worker.js';

/** What is no larger is quick, and does not wait behind what is. */
const quickBytes = 64 * 1024;

const threads = (mostWaiting: number) =>
  new Threads<Asked, Answered>({
    module: new URL('./calculate-worker.js', import.meta.url),
    task: 'calculate',
    mostWaiting,
    comeAgainSeconds: 15,
    limitMs: 60_000,
    memoryMb: 1024,
  });

const quick = threads(1000);
const long = threads(12); // a million points take a second or two each

export const workedOut = (asked: Asked): Promise<Answered> => (asked.body.byteLength <= quickBytes ? quick : long).run(asked);
