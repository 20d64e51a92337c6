import type { Clock } from '../clock/index.js';
import { errorMessage } from '../errors/index.js';
import { backupsIn, deleteOld } from './folder.js';
import type { TakenBackup } from './write.js';

const hourMs = 3_600_000;
const dayMs = 24 * hourMs;

interface Given {
  readonly folder: string;
  readonly clock: Clock;
  readonly take: (signal: AbortSignal) => Promise<TakenBackup>;
  readonly log: { log(words: string): void; error(words: string): void };
}

/** Takes a backup where the newest is a day old, looks every hour, and deletes those that the rule no longer keeps once a new one was verified. */
export class DailyBackup {
  private timer: NodeJS.Timeout | undefined;
  private running: Promise<void> = Promise.resolve();
  private readonly stopping = new AbortController();

  constructor(private readonly given: Given) {}

  start(): void {
    this.begin();
    this.timer = setInterval(() => this.begin(), hourMs).unref();
  }

  /** What is under way is given up: the next start takes one. */
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
    this.running = this.running.then(() => this.backUpIfDue());
  }

  private async backUpIfDue(): Promise<void> {
    const { folder, clock, take, log } = this.given;
    try {
      const now = clock.now().getTime();
      const newest = (await backupsIn(folder)).find(({ at }) => at.getTime() <= now);
      if (this.stopping.signal.aborted || (newest && now - newest.at.getTime() < dayMs)) return;
      const { file, rows, bytes } = await take(this.stopping.signal);
      const old = await deleteOld(folder);
      log.log(`${file}: ${rows} rows, ${bytes} bytes, verified; ${old.length} old ones deleted`);
    } catch (error) {
      if (this.stopping.signal.aborted) return;
      log.error(`the backup failed, and is tried again in an hour: ${errorMessage(error)}`);
    }
  }
}
