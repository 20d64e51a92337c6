import { readdir, rm } from 'node:fs/promises';
import path from 'node:path';
import { errorCode } from '../errors/index.js';
import { toKeep } from './keep.js';

/** `bakehouse-20261127T224303Z.age`: the moment that it is of is in its name. */
const named = /^bakehouse-(\d{4})(\d\d)(\d\d)T(\d\d)(\d\d)(\d\d)Z\.age$/;

export interface KeptBackup {
  readonly file: string;
  readonly at: Date;
}

export const fileName = (at: Date): string => `bakehouse-${at.toISOString().replace(/\.\d+/, '').replace(/[-:]/g, '')}.age`;
/** The small text beside a backup that says what is in it. */
export const besideOf = (file: string): string => file.replace(/\.age$/, '.json');

/** What it is called until it was verified. */
export const unfinishedName = (file: string): string => `${file}.unfinished`;

/** The backups of a folder, the newest first. One that was not finished has another name. */
export async function backupsIn(folder: string): Promise<readonly KeptBackup[]> {
  const names = await readdir(folder).catch((error: unknown) => {
    if (errorCode(error) === 'ENOENT') return [];
    throw error;
  });
  return names
    .flatMap((name) => {
      const [, year, month, day, hour, minute, second] = named.exec(name) ?? [];
      if (second === undefined) return [];
      return [{ file: path.join(folder, name), at: new Date(`${year}-${month}-${day}T${hour}:${minute}:${second}Z`) }];
    })
    .filter(({ at }) => !Number.isNaN(at.getTime()))
    .sort((a, b) => b.at.getTime() - a.at.getTime());
}

/** Deletes the backups that the rule no longer keeps, what a killed process left unfinished before the newest, and nothing else. Gives the backups that went. */
export async function deleteOld(folder: string): Promise<readonly KeptBackup[]> {
  const all = await backupsIn(folder);
  const kept = new Set(toKeep(all.map(({ at }) => at)));
  const old = all.filter(({ at }) => !kept.has(at));
  for (const { file } of old) {
    await rm(file, { force: true });
    await rm(besideOf(file), { force: true });
  }
  const newest = path.basename(all[0]?.file ?? '');
  for (const name of await readdir(folder))
    if (named.test(name.replace(/\.unfinished$/, '')) && name.endsWith('.unfinished') && name < newest)
      await rm(path.join(folder, name), { force: true });
  return old;
}
