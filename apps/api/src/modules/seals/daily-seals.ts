import { errorMessage } from '../../platform/errors/index.js';
import type { Left } from './leave-house.js';

const hourMs = 3_600_000;

interface Given {
  readonly leave: (signal: AbortSignal) => Promise<Left>;
  readonly log: { log(words: string): void; error(words: string): void };
}

/** Lets seals leave the house: at the start, and every hour what is due or failed before. */
export class DailySeals {
  private timer: NodeJS.Timeout | undefined;
  private running: Promise<void> = Promise.resolve();
  private readonly stopping = new AbortController();

  constructor(private readonly given: Given) {}

  start(): void {
    this.begin();
    this.timer = setInterval(() => this.begin(), hourMs).unref();
  }

  async stop(): Promise<void> {
    clearInterval(this.timer);
    this.stopping.abort();
    await this.running;
  }

  /** When what is under way has ended. */
  idle(): Promise<void> {
    return this.running;
  }

  private begin(): void {
    this.running = this.running.then(() => this.leave());
  }

  private async leave(): Promise<void> {
    const { leave, log } = this.given;
    if (this.stopping.signal.aborted) return;
    try {
      const { done, failed, alarms } = await leave(this.stopping.signal);
      for (const words of done) log.log(words);
      for (const words of failed) log.error(`${words}; tried again in an hour`);
      for (const words of alarms) log.error(words);
    } catch (error) {
      if (!this.stopping.signal.aborted) log.error(`the seals did not leave, and are tried again in an hour: ${errorMessage(error)}`);
    }
  }
}
