/** How many entries one commit takes at most: beyond it the next commit is the better place. */
const entriesPerCommit = 400;

interface Waiting<J, R> { readonly jobs: readonly J[]; readonly resolve: (results: R[]) => void; readonly reject: (error: unknown) => void }

/**
 * What arrives during a commit joins the next one. A commit that fails as a whole is
 * run again request by request, so that one poison request fails alone.
 */
export class Lane<J, R> {
  private queue: Waiting<J, R>[] = [];
  private running = false;

  constructor(private readonly commit: (jobs: readonly J[]) => Promise<R[]>) {}

  add(jobs: readonly J[]): Promise<R[]> {
    return new Promise((resolve, reject) => {
      this.queue.push({ jobs, resolve, reject });
      if (!this.running) void this.drain();
    });
  }

  private async drain(): Promise<void> {
    this.running = true;
    while (this.queue.length > 0) await this.run(this.take());
    this.running = false;
  }

  private take(): Waiting<J, R>[] {
    let count = 0;
    const upTo = this.queue.findIndex((w, i) => { count += w.jobs.length; return i > 0 && count > entriesPerCommit; });
    const taken = upTo < 0 ? this.queue : this.queue.slice(0, upTo);
    this.queue = upTo < 0 ? [] : this.queue.slice(upTo);
    return taken;
  }

  private async run(group: readonly Waiting<J, R>[]): Promise<void> {
    try {
      const results = await this.commit(group.flatMap((w) => w.jobs));
      let at = 0;
      for (const w of group) w.resolve(results.slice(at, (at += w.jobs.length)));
    } catch (error) {
      if (group.length === 1) group[0]?.reject(error);
      else for (const w of group) await this.run([w]);
    }
  }
}
