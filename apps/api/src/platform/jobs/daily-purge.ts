import { Inject, Injectable, Logger, type BeforeApplicationShutdown, type OnApplicationBootstrap } from '@nestjs/common';
import { errorMessage } from '../errors/index.js';
import { Purge } from './purge.js';

const dayMs = 86_400_000;

/** Purges at the start and once a day from then on. A purge that fails is told in the log, and the next one does its work. */
@Injectable()
export class DailyPurge implements OnApplicationBootstrap, BeforeApplicationShutdown {
  private readonly log = new Logger('Purge');
  private timer: NodeJS.Timeout | undefined;
  private running: Promise<void> | undefined;

  constructor(@Inject(Purge) private readonly purge: Pick<Purge, 'run'>) {}

  onApplicationBootstrap(): void {
    this.begin();
    this.timer = setInterval(() => this.begin(), dayMs).unref();
  }

  /** What is under way is finished before the connections end. */
  async beforeApplicationShutdown(): Promise<void> {
    clearInterval(this.timer);
    await this.running;
  }

  private begin(): void {
    this.running = this.purge.run().then(
      (purged) => this.log.log(purged.map(({ what, count }) => `${count} ${what}`).join(', ')),
      (error: unknown) => this.log.error(`the purge failed: ${errorMessage(error)}`),
    );
  }
}
