import { closeSync, existsSync, fsyncSync, mkdirSync, openSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import {
  cosign,
  judgeCheckpoint,
  publicKeyOf,
  readCheckpoint,
  readVerifierKey,
  textOfNote,
  toHex,
  utf8,
  witnessKey,
  type AddCheckpoint,
  type Checkpoint,
  type Witnessed,
} from '@bakehouse/ledger';
import type { Clock } from '../../platform/clock/index.js';
import { sha256 } from '../../platform/ledger/index.js';
import { keptSeed } from '../seals/index.js';

/** What a witness answers, with its cosignature where it gives one. */
export type Judged = Exclude<Witnessed, { status: 200 }> | { readonly status: 200; readonly line: string };

export interface WitnessFolder {
  /** What its cosignatures are checked with. */
  readonly key: string;
  readonly judge: (request: AddCheckpoint) => Judged;
  /** How many books it was given the key of. */
  readonly books: () => number;
}

/** The file of the keys of the books that are witnessed: one a line, as it stands on papers; lines with # are for people. */
export const booksFile = 'books.txt';

/**
 * What a witness keeps: its key and name, the keys of the books it was given, the last seal it signed of each, and what it refused. Read and written within one
 * turn of the process, so that what was judged is what is kept; and it is on the disk before the cosignature is given away.
 * @throws where no name was given the first time, or what is kept cannot be read
 */
export async function openWitness(folder: string, name: string | undefined, clock: Clock): Promise<WitnessFolder> {
  const at = (...parts: readonly string[]): string => path.join(folder, ...parts);
  for (const dir of ['seen', 'refused']) mkdirSync(at(dir), { recursive: true });
  const kept = existsSync(at('name.txt')) ? readFileSync(at('name.txt'), 'utf8').trim() : undefined;
  const called = kept ?? name;
  if (called === undefined) throw new Error('give the witness a name, the first time: --name witness.example/who');
  if (name !== undefined && name !== called) throw new Error(`this witness is called ${called}; another name needs another folder`);
  const seed = await keptSeed(at('witness.key'));
  const key = witnessKey(called, publicKeyOf(seed));
  if (kept === undefined) writeWholeNow(at('name.txt'), `${called}\n`);
  if (!existsSync(at(booksFile))) writeFileSync(at(booksFile), '# The keys of the books that this witness signs for, one a line.\n');

  const fileOf = (origin: string): string => at('seen', `${toHex(sha256(utf8(origin)))}.txt`);
  const keys = (): string[] => {
    const lines = readFileSync(at(booksFile), 'utf8').split('\n');
    return lines.map((line) => line.trim()).filter((line) => readVerifierKey(line) !== undefined);
  };
  const lastOf = (origin: string): Checkpoint | undefined =>
    existsSync(fileOf(origin)) ? checkpointIn(fileOf(origin), origin) : undefined;
  const keepRefused = (request: AddCheckpoint, says: string): void => {
    const text = textOfNote(request.note) ?? '';
    const file = at('refused', `${toHex(sha256(utf8(text)))}.txt`); // one file a seal, however often it is sent
    const origin = text.split('\n', 1)[0] ?? '';
    const seen = existsSync(fileOf(origin)) ? readFileSync(fileOf(origin), 'utf8') : '';
    if (!existsSync(file))
      writeWholeNow(file, `# ${clock.now().toISOString()}: ${says}\n\n${request.note}\n# What was signed before:\n\n${seen}`);
  };

  return {
    key,
    books: () => keys().length,
    judge(request) {
      const found = judgeCheckpoint(request, keys(), lastOf);
      if (found.status !== 200) {
        if ((found.status === 409 || found.status === 422) && found.evidence)
          keepRefused(request, 'refused: signed by the book’s key, and sent without a proof that it extends what was signed before');
        return found;
      }
      const line = cosign(found.text, called, seed, Math.floor(clock.now().getTime() / 1000));
      writeWholeNow(fileOf(found.checkpoint.origin), `${request.note}${line}\n`);
      return { status: 200, line };
    },
  };
}

/** What cannot be read is no "never seen": signing after that could sign a second history. */
function checkpointIn(file: string, origin: string): Checkpoint {
  const text = textOfNote(readFileSync(file, 'utf8'));
  const found = text === undefined ? undefined : readCheckpoint(text);
  if (found?.origin !== origin) throw new Error(`${file} does not hold the last seal of ${origin}`);
  return found;
}

function writeWholeNow(file: string, text: string): void {
  const made = `${file}.unfinished`;
  const handle = openSync(made, 'w');
  try {
    writeFileSync(handle, text);
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
  renameSync(made, file);
  const folder = openSync(path.dirname(file), 'r');
  try {
    fsyncSync(folder); // the name too is on the disk
  } finally {
    closeSync(folder);
  }
}
