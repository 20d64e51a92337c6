const hourMs = 3_600_000;

/** Does something at the start and every hour, one after the other, until it is stopped. What is done tells of its own failures. */
export class Hourly {
  private timer: NodeJS.Timeout | undefined;
  private running: Promise<void> = Promise.resolve();
  private readonly stopping = new AbortController();

  constructor(private readonly work: (signal: AbortSignal) => Promise<void>) {}

  start(): void {
    this.begin();
    this.timer = setInterval(() => this.begin(), hourMs).unref();
  }

  /** What is under way is given up: the next start does it. */
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
    const { signal } = this.stopping;
    this.running = this.running.then(() => (signal.aborted ? undefined : this.work(signal)));
  }
}
