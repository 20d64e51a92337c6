import { Injectable, type OnApplicationShutdown } from '@nestjs/common';
import { Threads } from '../../platform/threads/index.js';
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

/** The threads that the sums are worked out in. They end after the last request has been answered. */
@Injectable()
export class Sums implements OnApplicationShutdown {
  private readonly quick = threads(1000);
  private readonly long = threads(12); // a million points take a second or two each

  workedOut(asked: Request): Promise<Answer> {
    return (asked.body.byteLength <= quickBytes ? this.quick : this.long).run(asked);
  }

  async onApplicationShutdown(): Promise<void> {
    await Promise.all([this.quick.close(), this.long.close()]);
  }
}
