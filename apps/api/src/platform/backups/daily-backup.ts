import { Hourly, type Clock } from '../clock/index.js';
import { errorMessage } from '../errors/index.js';
import { backupsIn, deleteOld } from './folder.js';
import type { TakenBackup } from './write.js';

const dayMs = 24 * 3_600_000;

interface Given {
  readonly folder: string;
  readonly clock: Clock;
  readonly take: (signal: AbortSignal) => Promise<TakenBackup>;
  readonly log: { log(words: string): void; error(words: string): void };
}

/** Takes a backup where the newest is a day old, looks every hour, and deletes those that the rule no longer keeps once a new one was verified. */
export class DailyBackup extends Hourly {
  constructor(given: Given) {
    super((signal) => backUpIfDue(given, signal));
  }
}

async function backUpIfDue({ folder, clock, take, log }: Given, signal: AbortSignal): Promise<void> {
  try {
    const now = clock.now().getTime();
    const newest = (await backupsIn(folder)).find(({ at }) => at.getTime() <= now);
    if (signal.aborted || (newest && now - newest.at.getTime() < dayMs)) return;
    const { file, rows, bytes } = await take(signal);
    const old = await deleteOld(folder);
    log.log(`${file}: ${rows} rows, ${bytes} bytes, verified; ${old.length} old ones deleted`);
  } catch (error) {
    if (signal.aborted) return;
    log.error(`the backup failed, and is tried again in an hour: ${errorMessage(error)}`);
  }
}
