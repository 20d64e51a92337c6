import { stat } from 'node:fs/promises';
import type { Config } from '../../platform/config/index.js';
import type { Clock } from '../../platform/clock/index.js';
import { inHouse } from '../../platform/database/index.js';
import { errorMessage } from '../../platform/errors/index.js';
import { sha256 } from '../../platform/ledger/index.js';
import { everyBook, type NamedBook } from '../../platform/ledger/every-book.query.js';
import { askWitness, WitnessDiffers, type Witness } from './ask-witness.js';
import { keysToShow, signerOf, type BookKeys } from './book-keys.js';
import { BlockTree } from './block-tree.js';
import { keepCosignature, lastCosigned, lastSealOf } from './cosignatures.query.js';
import { fileOfDay, textOfDay, writeWhole, type SealOfDay } from './day-file.js';
import { humanCode } from './human-code.js';
import type { SealKey } from './seal-key.js';
import { sealNow } from './seal-now.js';
import { leavesOf, type Client, type SealRow } from './seals.query.js';

export interface Leaving {
  readonly config: Pick<Config, 'SEALS_DIR' | 'WITNESSES'>;
  readonly key: SealKey;
  readonly clock: Clock;
  /** Seals every book and writes the file of the day whether or not it is time. */
  readonly now?: boolean;
  readonly signal?: AbortSignal;
}

/** What was done, a sentence each; what failed, and is tried again; and what says that two histories were shown. */
export interface Left {
  readonly done: readonly string[];
  readonly failed: readonly string[];
  readonly alarms: readonly string[];
}

interface Sealed {
  readonly book: NamedBook;
  readonly seal: SealRow;
  readonly keys: BookKeys;
}

const dayMs = 24 * 3_600_000;

/**
 * Seals the books that have new records, once a day, and lets the seals leave the house: into the file of the day, and to the witnesses. What was done already
 * is not done again, and a failure of one does not keep the others.
 */
export async function leaveHouse(client: Client, given: Leaving): Promise<Left> {
  const left = { done: Array<string>(), failed: Array<string>(), alarms: Array<string>() };
  const books = (await everyBook(client)).filter(({ size }) => size > 0);
  for (const organisation of new Set(books.map((book) => book.organisation))) {
    const ofHouse = books.filter((book) => book.organisation === organisation);
    try {
      await sealHouse(client, ofHouse, given, left);
    } catch (error) {
      left.failed.push(`the seals of ${ofHouse[0]?.of ?? organisation}: ${errorMessage(error)}`);
    }
  }
  return left;
}

type Lists = { readonly [Name in keyof Left]: string[] };

async function sealHouse(client: Client, books: readonly NamedBook[], given: Leaving, left: Lists): Promise<void> {
  const { config, clock, now = false } = given;
  const [house] = books;
  if (!house) return;
  const at = clock.now();
  const file = config.SEALS_DIR === undefined ? undefined : fileOfDay(config.SEALS_DIR, house.organisation, at);
  const fileIsDue = file !== undefined && (now || !(await isThere(file)));
  const sealed: Sealed[] = [];
  for (const book of books) {
    const { keys, ...seal } = await sealedIfDue(client, book, given, now || fileIsDue);
    sealed.push({ book, seal, keys });
  }
  if (file !== undefined && fileIsDue) {
    await writeWhole(file, textOfDay(house.of, at, sealed.map(ofDay))).then(
      () => left.done.push(`${file}: the seals of ${sealed.length} books of ${house.of}`),
      (error: unknown) => left.failed.push(`${file} could not be written: ${errorMessage(error)}`),
    );
  }
  for (const witness of config.WITNESSES ?? []) for (const one of sealed) await cosigned(client, one, witness, given, left);
}

/** The newest seal of a book; a new one where records came since and it is time. */
async function sealedIfDue(
  client: Client,
  book: NamedBook,
  { key, clock }: Leaving,
  due: boolean,
): Promise<SealRow & { readonly keys: BookKeys }> {
  return inHouse(client, book.organisation, async () => {
    const last = await lastSealOf(client, book);
    if (last && (last.size === book.size || (!due && clock.now().getTime() - Date.parse(last.at) < dayMs)))
      return { ...last, keys: await keysToShow(client, book, key) };
    return sealNow(client, book, key, clock.now().toISOString());
  });
}

const ofDay = ({ book: { name }, seal: { size, root, note }, keys }: Sealed): SealOfDay => ({
  ...{ name, size, note },
  code: humanCode(root),
  verifierKey: signerOf(note, keys),
  statements: keys.statements,
});

/** Nothing of the database is held while the witness is waited for. */
async function cosigned(client: Client, { book, seal }: Sealed, witness: Witness, { clock, signal }: Leaving, left: Lists): Promise<void> {
  const seen = await inHouse(client, book.organisation, () => lastCosigned(client, book, witness.key));
  if (seen === seal.size || signal?.aborted) return;
  const called = `${witness.url}, about ${book.name} of ${book.of}`;
  try {
    const proofFrom = async (size: number) => {
      if (size === 0) return [];
      const leaves = await inHouse(client, book.organisation, () => leavesOf(client, book, seal.size));
      return new BlockTree(leaves, sha256).consistencyProof(size);
    };
    const line = await askWitness(witness, { size: seal.size, note: seal.note, proofFrom }, seen ?? 0, signal);
    const kept = { size: seal.size, witness: witness.key, line, at: clock.now().toISOString() };
    await inHouse(client, book.organisation, () => keepCosignature(client, book, kept));
    left.done.push(`${called}: cosigned, over ${seal.size} records`);
  } catch (error) {
    if (signal?.aborted) return;
    if (error instanceof WitnessDiffers)
      left.alarms.push(
        `${called}: it refuses this seal: ${error.message}. Records here were changed or cut off, or two computers keep this book. Change nothing; run npm run records -- verify, and ask the witness for what it has.`,
      );
    else left.failed.push(`${called}: ${errorMessage(error)}`);
  }
}

const isThere = (file: string): Promise<boolean> =>
  stat(file).then(
    () => true,
    () => false,
  );
