import { Hourly } from '../../platform/clock/index.js';
import { errorMessage } from '../../platform/errors/index.js';
import type { Left } from './leave-house.js';

interface Given {
  readonly leave: (signal: AbortSignal) => Promise<Left>;
  readonly log: { log(words: string): void; error(words: string): void };
}

/** Lets seals leave the house: at the start, and every hour what is due or failed before. */
export class DailySeals extends Hourly {
  constructor(given: Given) {
    super((signal) => letLeave(given, signal));
  }
}

async function letLeave({ leave, log }: Given, signal: AbortSignal): Promise<void> {
  try {
    const { done, failed, alarms } = await leave(signal);
    for (const words of done) log.log(words);
    for (const words of failed) log.error(`${words}; tried again in an hour`);
    for (const words of alarms) log.error(words);
  } catch (error) {
    if (!signal.aborted) log.error(`the seals did not leave, and are tried again in an hour: ${errorMessage(error)}`);
  }
}
