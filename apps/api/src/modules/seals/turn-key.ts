import { randomBytes } from 'node:crypto';
import { publicKeyOf, sameBytes, signKeyChange, verifierKey, type KeyChange } from '@bakehouse/ledger';
import type { Clock } from '../../platform/clock/index.js';
import type { Config } from '../../platform/config/index.js';
import { inTransaction, organisationIds, seeHouse } from '../../platform/database/index.js';
import { originOf } from '../../platform/ledger/index.js';
import { publicAfter } from './book-keys.js';
import { booksOf, everybodySeals, keepKeyChange, keyChangesOf, lastChanges, nobodySeals } from './key-changes.query.js';
import { dropNext, nextIsKey, putNext, readNext, seedBytes } from './key-file.js';
import { SealKey } from './seal-key.js';
import { sealNow } from './seal-now.js';
import type { Client } from './seals.query.js';

/** After what a change of the key may be cut off, in this order; each is whole before the next begins. */
export const turnSteps = ['next-kept', 'said', 'committed', 'ended'] as const;

export interface Turning {
  readonly config: Pick<Config, 'SEAL_KEY' | 'DATA_DIR'>;
  readonly clock: Clock;
  /** Told the new key in base64 before anything names it, where it is for the settings and is kept in no file. */
  readonly hand: (seed: string) => void;
  /** Hears of each step that is whole. */
  readonly after?: (step: (typeof turnSteps)[number]) => void;
}

/** A change, with the name of its book. */
export interface Turned extends KeyChange {
  readonly name: string;
}

/**
 * Hands the key for seals over to a new one, in every book of every house or in none: while nobody else seals, the key before makes a last seal of each and signs
 * who comes after it. In a file the new key stands beside the old one until the statements are committed; where this is cut off, `settleKey` ends it or drops it.
 */
export async function turnKey(client: Client, { config, clock, hand, after = () => undefined }: Turning): Promise<readonly Turned[]> {
  return alone(client, async () => {
    await settle(client, config);
    const changes = await inTransaction(client, () => handOver(client, { config, clock, hand, after }));
    after('committed');
    if (config.SEAL_KEY === undefined) await nextIsKey(config);
    after('ended');
    return changes;
  });
}

async function handOver(client: Client, { config, clock, hand, after }: Required<Turning>): Promise<readonly Turned[]> {
  const key = new SealKey(config);
  const seed = await key.seedOf((await lastChanges(client)).map(({ note }) => publicAfter(note)).at(0));
  const next = config.SEAL_KEY === undefined ? await putNext(config) : new Uint8Array(randomBytes(seedBytes));
  if (config.SEAL_KEY !== undefined) hand(Buffer.from(next).toString('base64'));
  after('next-kept');
  const said = await sayInEveryBook(client, key, { seed, next }, clock.now().toISOString());
  after('said');
  return said;
}

/** Every book has its last seal before any statement is made: to a book of which nothing was said yet, its house's newest statement says which key is the key. */
async function sayInEveryBook(client: Client, key: SealKey, { seed, next }: Record<'seed' | 'next', Uint8Array>, at: string) {
  const sealed = [];
  for (const organisation of await organisationIds(client)) {
    await seeHouse(client, organisation);
    for (const { id, name } of await booksOf(client, organisation))
      sealed.push({ book: { organisation, id }, name, size: (await sealNow(client, { organisation, id }, key, at)).size });
  }
  const said: Turned[] = [];
  for (const { book, name, size } of sealed) {
    await seeHouse(client, book.organisation);
    const origin = originOf(book.id);
    const [from, to] = [verifierKey(origin, publicKeyOf(seed)), verifierKey(origin, publicKeyOf(next))];
    const change = { origin, type: 'handover', size, from, to } as const;
    const turn = (await keyChangesOf(client, book)).length;
    await keepKeyChange(client, book, { turn, size, note: signKeyChange(change, seed), at });
    said.push({ ...change, name });
  }
  return said;
}

/** What became of a change of the key that was cut off. */
export type Settled = 'nothing-to-do' | 'ended' | 'dropped';

/** A next key that a statement names is the key, and one that none names never was: the change before it was cut off goes to its end, or away. */
export async function settleKey(client: Client, config: Turning['config']): Promise<Settled> {
  if (config.SEAL_KEY !== undefined || (await readNext(config)) === undefined) return 'nothing-to-do';
  return alone(client, () => settle(client, config));
}

export async function settle(client: Client, config: Turning['config']): Promise<Settled> {
  const next = config.SEAL_KEY === undefined ? await readNext(config) : undefined;
  if (next === undefined) return 'nothing-to-do';
  const publicKey = publicKeyOf(next);
  const said = await inTransaction(client, () => lastChanges(client));
  const named = said.some(({ note }) => {
    const to = publicAfter(note);
    return to !== undefined && sameBytes(to, publicKey);
  });
  await (named ? nextIsKey(config) : dropNext(config));
  return named ? 'ended' : 'dropped';
}

/** Nobody else seals while this runs: what is in the database and what is in the file are changed together. */
export async function alone<T>(client: Client, work: () => Promise<T>): Promise<T> {
  await nobodySeals(client);
  try {
    return await work();
  } finally {
    await everybodySeals(client);
  }
}
