import type { Config } from '../config/index.js';
import { backupsIn } from './folder.js';

/** How the daily backups are doing, and of which moment the newest is (ISO 8601, UTC). Told by the health route, the doctor and the figures alike. */
export interface BackupState {
  readonly state: 'not-set-up' | 'recent' | 'overdue' | 'none' | 'unknown';
  readonly newest: string | null;
}

/** One is taken a day; a day and a half leaves time for a slow one, and for one that was tried again. */
const overdueMs = 36 * 3_600_000;

export async function backupState({ BACKUP_DIR }: Pick<Config, 'BACKUP_DIR'>, now: Date): Promise<BackupState> {
  if (BACKUP_DIR === undefined) return { state: 'not-set-up', newest: null };
  const all = await backupsIn(BACKUP_DIR).catch(() => undefined);
  const newest = all?.[0]?.at;
  if (!newest) return { state: all ? 'none' : 'unknown', newest: null };
  return { state: now.getTime() - newest.getTime() > overdueMs ? 'overdue' : 'recent', newest: newest.toISOString() };
}
