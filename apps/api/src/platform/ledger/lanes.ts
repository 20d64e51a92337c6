import { ProblemException } from '../http/problem.js';

/** How many entries one commit takes at most: beyond it the next commit is the better place. */
const entriesPerCommit = 400;
/** How many wait at most: ten commits, which is about a second. More would only wait longer than those who sent it, and be sent again. */
export const maxWaiting = 10 * entriesPerCommit;
const comeAgainSeconds = '2';

interface Waiting<J, R> {
  readonly jobs: readonly J[];
  readonly resolve: (results: R[]) => void;
  readonly reject: (error: unknown) => void;
}

/**
 * What arrives during a commit joins the next one. A commit that fails as a whole is run again request by request, and a request that fails
 * alone entry by entry, so that one poison entry fails alone. `give` answers for it, or throws where it was not the entry's own fault.
 * So many wait at most; what waits is never given up for what comes later.
 */
export class Lane<J, R> {
  private queue: Waiting<J, R>[] = [];
  private count = 0;
  private running = false;

  /** How many entries wait. */
  get waiting(): number {
    return this.count;
  }

  constructor(
    private readonly commit: (jobs: readonly J[]) => Promise<R[]>,
    private readonly give: (job: J, error: unknown) => Promise<R> = (_job, error) => Promise.reject(error),
  ) {}

  /** @throws ProblemException where too many wait already */
  add(jobs: readonly J[]): Promise<R[]> {
    return new Promise((resolve, reject) => {
      if (this.count > 0 && this.count + jobs.length > maxWaiting)
        throw new ProblemException('unavailable', { 'retry-after': comeAgainSeconds });
      this.count += jobs.length;
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
    const upTo = this.queue.findIndex((w, i) => {
      count += w.jobs.length;
      return i > 0 && count > entriesPerCommit;
    });
    const taken = upTo < 0 ? this.queue : this.queue.slice(0, upTo);
    this.queue = upTo < 0 ? [] : this.queue.slice(upTo);
    for (const { jobs } of taken) this.count -= jobs.length;
    return taken;
  }

  private async run(group: readonly Waiting<J, R>[]): Promise<void> {
    try {
      const results = await this.commit(group.flatMap((w) => w.jobs));
      let at = 0;
      for (const w of group) w.resolve(results.slice(at, (at += w.jobs.length)));
    } catch (error) {
      const [first] = group;
      if (group.length === 1 && first) await this.oneByOne(first, error);
      else for (const w of group) await this.run([w]);
    }
  }

  /** A second try for each: what two processes did to each other at the same moment has passed. */
  private async oneByOne({ jobs, resolve, reject }: Waiting<J, R>, failure: unknown): Promise<void> {
    try {
      if (!isOfTheData(failure)) throw failure;
      const results: R[] = [];
      for (const job of jobs) results.push(...(await this.commit([job]).catch(async (error: unknown) => [await this.give(job, error)])));
      resolve(results);
    } catch (error) {
      reject(error);
    }
  }
}

/** A row that another record made was about to be written over. */
export class RowTaken extends Error {}

/** Whether what was sent made a commit fail, and not the way there: SQLSTATE classes of data, cardinality, integrity, serialization and program limits. */
export function isOfTheData(error: unknown): boolean {
  if (error instanceof RowTaken || error instanceof RangeError) return true;
  const code = typeof error === 'object' && error !== null && 'code' in error ? error.code : undefined;
  return typeof code === 'string' && /^(21|22|23|40|54)[0-9A-Z]{3}$/.test(code);
}
