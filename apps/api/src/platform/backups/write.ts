import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { mkdir, open, rename, rm, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { connected } from '../database/index.js';
import type { Clock } from '../clock/index.js';
import { besideOf, fileName, unfinishedName } from './folder.js';
import type { BookSummary } from './form.js';
import { readBackup } from './read.js';
import { checkRecipients, newKeyPair, sealed } from './sealed-file.js';
import { backupText } from './take.js';

export interface BackupOrder {
  readonly serviceUrl: string;
  readonly folder: string;
  /** Public keys; each one's private key opens the backup. */
  readonly recipients: readonly string[];
  /** What seals are signed with, in base64; null where none was made yet. */
  readonly sealKey: string | null;
  readonly clock: Clock;
  /** A service that ends does not wait for a backup: it is given up, and nothing of it stays. */
  readonly signal?: AbortSignal;
}

export interface TakenBackup {
  readonly file: string;
  readonly at: string;
  readonly bytes: number;
  readonly rows: number;
  readonly sha256: string;
  readonly books: readonly BookSummary[];
}

/**
 * Takes a backup and reads it back from the disk before it has its name: decrypted, each table's rows against their hash, each book's entries
 * against its root. The private key is not here, so it is encrypted to one more key, which this process alone has and forgets.
 */
export async function takeBackup({ serviceUrl, folder, recipients, sealKey, clock, signal }: BackupOrder): Promise<TakenBackup> {
  checkRecipients(recipients);
  const own = await newKeyPair();
  const at = clock.now();
  const file = path.join(folder, fileName(at));
  const unfinished = unfinishedName(file);
  await mkdir(folder, { recursive: true, mode: 0o700 });
  try {
    const written = await connected(serviceUrl, (service) =>
      writeDurably(unfinished, sealed(backupText(service, { at: at.toISOString(), sealKey }), [...recipients, own.recipient]), signal),
    );
    const { books, rows } = await readBackup(unfinished, own.secret, { rows: () => signal?.throwIfAborted() });
    if ((await digestOf(unfinished)) !== written.sha256) throw new Error(`What stands in ${folder} is not what was written to it.`);
    const taken = { file, at: at.toISOString(), ...written, rows, books };
    await writeFile(besideOf(file), `${JSON.stringify(forAnybody(taken), undefined, 2)}\n`, { mode: 0o600 });
    await rename(unfinished, file);
    return taken;
  } finally {
    await rm(unfinished, { force: true });
  }
}

/** What stands beside it unencrypted: sizes and hashes, no name and no word. */
const forAnybody = ({ file, books, ...taken }: TakenBackup): object => ({
  file: path.basename(file),
  ...taken,
  books: books.map(({ name: _name, ...book }) => book),
});

async function writeDurably(
  file: string,
  chunks: AsyncIterable<Uint8Array>,
  signal: AbortSignal | undefined,
): Promise<{ readonly bytes: number; readonly sha256: string }> {
  const hash = createHash('sha256');
  let bytes = 0;
  const handle = await open(file, 'wx', 0o600);
  try {
    for await (const chunk of chunks) {
      signal?.throwIfAborted();
      hash.update(chunk);
      bytes += chunk.length;
      await handle.writeFile(chunk);
    }
    await handle.sync();
  } finally {
    await handle.close();
  }
  return { bytes, sha256: hash.digest('hex') };
}

async function digestOf(file: string): Promise<string> {
  const hash = createHash('sha256');
  for await (const chunk of createReadStream(file)) hash.update(chunk);
  return hash.digest('hex');
}
