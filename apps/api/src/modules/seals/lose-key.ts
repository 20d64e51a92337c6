import { followKeys, openNote, publicKeyOf, readVerifierKey, sameBytes, signKeyChange, verifierKey } from '@bakehouse/ledger';
import { inTransaction, organisationIds, seeHouse } from '../../platform/database/index.js';
import { originOf } from '../../platform/ledger/index.js';
import { publicAfter } from './book-keys.js';
import { booksOf, keepKeyChange, keyChangesOf, lastChanges } from './key-changes.query.js';
import { nextIsKey, putNext } from './key-file.js';
import { seedHere } from './seal-key.js';
import { newestSeals, type Client } from './seals.query.js';
import { alone, settle, type Turned, type Turning } from './turn-key.js';

export type Losing = Pick<Turning, 'config' | 'clock'> & {
  /** The public key that was lost, of any book, from a paper: it has to be named where no statement names it. */
  readonly oldKey: string | undefined;
};

/** Nobody here can tell which key was lost. */
export class WhichKey extends Error {}

/**
 * Says in every book of every house, or in none, that the key for seals is lost, and begins with another: the one that is here, or one that is made where none is.
 * Nobody signs for that one but itself, so nothing from before vouches for it.
 * @throws where the key is here, or did not make the seals, or `WhichKey`
 */
export async function loseKey(client: Client, { config, clock, oldKey }: Losing): Promise<readonly Turned[]> {
  return alone(client, async () => {
    await settle(client, config);
    const here = await seedHere(config);
    const said = await inTransaction(client, async () => {
      const lost = await lostKey(client, oldKey);
      if (here !== undefined && sameBytes(publicKeyOf(here), lost))
        throw new Error('The key for seals is here: it is not lost. To change it: npm run records -- seal --new-key');
      return sayLost(client, lost, here ?? (await putNext(config)), clock.now().toISOString());
    });
    if (here === undefined) await nextIsKey(config);
    return said;
  });
}

/** The key that the last statement names; else the one that is given, where it signed what is here. */
async function lostKey(client: Client, given: string | undefined): Promise<Uint8Array> {
  const said = (await lastChanges(client)).map(({ note }) => publicAfter(note)).at(0);
  const named = given === undefined ? undefined : readVerifierKey(given.trim())?.publicKey;
  if (given !== undefined && named === undefined) throw new WhichKey();
  if (said !== undefined) {
    if (named !== undefined && !sameBytes(said, named))
      throw new Error('That is not the key that the last statement names: leave --old-key out.');
    return said;
  }
  if (named === undefined) throw new WhichKey();
  const seals = await newestSeals(client);
  if (!seals.some(({ book, note }) => openNote(note, verifierKey(originOf(book), named)).ok))
    throw new Error('That key signed no seal here. Look at another paper, or at a file of the seals of a day.');
  return named;
}

async function sayLost(client: Client, lost: Uint8Array, next: Uint8Array, at: string): Promise<readonly Turned[]> {
  const said: Turned[] = [];
  for (const organisation of await organisationIds(client)) {
    await seeHouse(client, organisation);
    for (const { id, name, size } of await booksOf(client, organisation)) {
      const origin = originOf(id);
      const [from, to] = [verifierKey(origin, lost), verifierKey(origin, publicKeyOf(next))];
      const change = { origin, type: 'lost', size, from, to } as const;
      const before = (await keyChangesOf(client, { organisation, id })).map(({ note }) => note);
      const note = signKeyChange(change, next);
      if (followKeys([...before, note], to).turns.length === 0)
        throw new Error('That key made seals here before and is not taken again: give a new one (openssl rand -base64 32).');
      await keepKeyChange(client, { organisation, id }, { turn: before.length, size, note, at });
      said.push({ ...change, name });
    }
  }
  return said;
}
