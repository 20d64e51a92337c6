import { randomBytes } from 'node:crypto';
import { mkdir, open, readdir, rename, rm } from 'node:fs/promises';
import path from 'node:path';
import { readKeyChange, textOfNote } from '@bakehouse/ledger';
import { errorCode } from '../../platform/errors/index.js';

/** A book's seal as it stands in the file of a day. */
export interface SealOfDay {
  readonly name: string;
  readonly size: number;
  readonly code: string;
  readonly note: string;
  /** The one that signed this seal. */
  readonly verifierKey: string;
  /** What was said of the book's keys, the oldest first. */
  readonly statements: readonly string[];
}

const named = /^seals-(\d{4}-\d\d-\d\d)-[0-9a-f-]{36}\.txt$/;
const dayOf = (at: Date): string => at.toISOString().slice(0, 10);

/** One file for a house and a day (UTC), so that one house's seals can be mailed without another's. */
export const fileOfDay = (folder: string, organisation: string, at: Date): string =>
  path.join(folder, `seals-${dayOf(at)}-${organisation}.txt`);

/** The newest day of which a file of seals was written; undefined where there is none. */
export async function newestDay(folder: string): Promise<string | undefined> {
  const names = await readdir(folder).catch((error: unknown) => {
    if (errorCode(error) === 'ENOENT') return [];
    throw error;
  });
  return names
    .flatMap((name) => named.exec(name)?.[1] ?? [])
    .sort()
    .at(-1);
}

/** Lines that begin with `# ` are for people; the verifier passes over them, so that the whole text can be pasted there. */
export function textOfDay(house: string, at: Date, seals: readonly SealOfDay[]): string {
  return [
    `# Seals of ${oneLine(house)}, ${dayOf(at)}.`,
    '# Keep this away from the computer of the house: mail it, print it, or give it to somebody outside.',
    '# Records that are handed out later can then be shown to begin with what was sealed here: paste this text into verify.html.',
    '# It does not show that what was recorded is true, nor anything about what comes later.',
    '',
    ...seals.flatMap(({ name, size, code, note, verifierKey, statements }) => [
      ...statements.flatMap((one) => changeSays(oneLine(name), one)),
      `# ${oneLine(name)}: ${size} ${size === 1 ? 'record' : 'records'}, code ${code}. First the key, then the seal.`,
      verifierKey,
      '',
      note,
    ]),
  ].join('\n');
}

/** For people alone: a bundle holds the statement itself, which the verifier follows from the key of an older file to this one. */
function changeSays(name: string, statement: string): readonly string[] {
  const change = readKeyChange(textOfNote(statement) ?? '');
  if (change === undefined) return [`# ${name}: what was said of its keys cannot be read. Ask the house.`];
  const { type, from, to, size } = change;
  return type === 'lost'
    ? [
        `# ${name}: after ${size} records the key was LOST. Nothing that was signed with ${from}`,
        `# vouches for ${to}: compare the new key with the house in person.`,
      ]
    : [`# ${name}: after ${size} records the key ${from}`, `# handed over to ${to}.`];
}

const oneLine = (text: string): string => text.replace(/\s+/g, ' ');

/** The file appears whole or not at all, and is on the disk when this returns. */
export async function writeWhole(file: string, text: string): Promise<void> {
  await mkdir(path.dirname(file), { recursive: true });
  const made = `${file}.${randomBytes(6).toString('hex')}`;
  try {
    const handle = await open(made, 'wx', 0o644);
    try {
      await handle.writeFile(text);
      await handle.sync();
    } finally {
      await handle.close();
    }
    await rename(made, file);
  } catch (error) {
    await rm(made, { force: true });
    throw error;
  }
}
