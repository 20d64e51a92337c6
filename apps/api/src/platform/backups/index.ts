export { DailyBackup } from './daily-backup.js';
export { backupsIn, deleteOld } from './folder.js';
export { bookLines, type Header } from './form.js';
export { loadBackup, refuseUnlessEmpty } from './load.js';
export { readBackup, type ReadBackup } from './read.js';
export { checkRecipients, newKeyPair } from './sealed-file.js';
export { backupState, type BackupState } from './state.js';
export { takeBackup, type TakenBackup } from './write.js';
