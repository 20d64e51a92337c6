import { Threads } from '../../platform/work/index.js';
import type { Answer, Request } from './calculate-worker.js';

/** What is no larger is quick, and does not wait behind what is. */
const quickBytes = 64 * 1024;

const threads = (maxWaiting: number) =>
  new Threads<Request, Answer>({
    module: new URL('./calculate-worker.js', import.meta.url),
    task: 'calculate',
    maxWaiting,
    retryAfterSeconds: 15,
    limitMs: 60_000,
    memoryMb: 1024,
  });

const quick = threads(1000);
const long = threads(12); // a million points take a second or two each

export const workedOut = (asked: Request): Promise<Answer> => (asked.body.byteLength <= quickBytes ? quick : long).run(asked);
