import path from 'node:path';
import { Piscina } from 'piscina';
import { childEnvironment, projectRoot } from '../config/index.js';
import { errorCode } from '../errors/index.js';
import { ProblemException } from '../http/index.js';

interface Options {
  /** The module that does the work, as it is named beside the one that asks, with the function of it that is called. */
  readonly module: URL;
  readonly task: string;
  /** So many pieces of work wait at most; one more is told to come again after so many seconds. */
  readonly maxWaiting: number;
  readonly retryAfterSeconds: number;
  /** For how long a piece of work may wait and be done. After that its thread is ended and another begins. */
  readonly limitMs: number;
  readonly memoryMb: number;
}

/** The threads run what this file runs: the build, or TypeScript from the source, loaded by what the process that begins them names with --import. */
const fromSource = path.extname(import.meta.url) === '.ts';
const sources = { TSX_TSCONFIG_PATH: path.join(projectRoot, 'libs/tooling/tsconfig.cruise.json') };
const idleMs = 30_000;

/**
 * Work that would keep the one thread of the service, and every tablet with it, waiting: done one piece after the other, in a thread that ends
 * when nothing was asked of it for a while.
 */
export class Threads<Asked, Answer> {
  private readonly pool: Piscina<Asked, Answer>;
  private closed = false;

  constructor(private readonly options: Options) {
    this.pool = new Piscina<Asked, Answer>({
      filename: fromSource ? options.module.href.replace(/\.js$/, '.ts') : options.module.href,
      name: options.task,
      minThreads: 0,
      maxThreads: 1,
      idleTimeout: idleMs,
      resourceLimits: { maxOldGenerationSizeMb: options.memoryMb },
      ...(fromSource ? { env: childEnvironment(sources) } : { execArgv: [] }),
    });
  }

  /**
   * Throws what the work throws.
   * @throws ProblemException where too much is waiting already, where it took longer or needed more memory than it may, and once it is closed
   */
  async run(asked: Asked, limit: AbortSignal = AbortSignal.timeout(this.options.limitMs)): Promise<Answer> {
    const { maxWaiting, retryAfterSeconds } = this.options;
    if (this.closed || this.pool.queueSize >= maxWaiting)
      throw new ProblemException('unavailable', { 'retry-after': String(retryAfterSeconds) });
    try {
      return await this.pool.run(asked, { signal: limit });
    } catch (error) {
      if (this.closed) throw new ProblemException('unavailable');
      if (limit.aborted || errorCode(error) === 'ERR_WORKER_OUT_OF_MEMORY') throw new ProblemException('took-too-long');
      throw error;
    }
  }

  /** Ends the thread with what it does, and what waits for it; the service ends. */
  async close(): Promise<void> {
    this.closed = true;
    await this.pool.destroy();
  }
}
