import { pipeline, Readable } from 'node:stream';
import { createGunzip, createGzip } from 'node:zlib';
import { Decrypter, Encrypter, generateX25519Identity, identityToRecipient } from 'age-encryption';
import { errorCode } from '../errors/index.js';

type Chunks = AsyncIterable<Uint8Array>;

export interface KeyPair {
  /** What opens a backup; kept away from the server. */
  readonly secret: string;
  /** What a backup is encrypted to. */
  readonly recipient: string;
}

/** A pair of keys in the form of age (age-encryption.org/v1, X25519). */
export async function newKeyPair(): Promise<KeyPair> {
  const secret = await generateX25519Identity();
  return { secret, recipient: await identityToRecipient(secret) };
}

/**
 * Refuses what is no public key, before anything depends on it.
 * @throws with a sentence that does not repeat the word: it may be a private key
 */
export function checkRecipients(recipients: readonly string[]): void {
  for (const recipient of recipients) {
    try {
      new Encrypter().addRecipient(recipient);
    } catch (cause) {
      throw new Error(
        'A word of BACKUP_TO is no public key. npm run records -- backup-key makes a pair; the public one begins with age1.',
        {
          cause,
        },
      );
    }
  }
}

/** Compressed, then encrypted to each of the public keys: the private key of any one of them opens it. */
export async function* sealed(text: AsyncIterable<string>, recipients: readonly string[]): AsyncGenerator<Uint8Array> {
  const encrypter = new Encrypter();
  for (const recipient of recipients) encrypter.addRecipient(recipient);
  const zipped = createGzip({ level: 4 });
  pipeline(Readable.from(text), zipped, () => undefined); // its error ends the reading below
  yield* chunksOf(await encrypter.encrypt(streamOf(zipped)));
}

export const keyDoesNotFit = 'This key does not open this backup: it was encrypted to another. Nothing was changed.';

/**
 * What `sealed` was given, as bytes.
 * @throws with a sentence where the key does not fit, and where the file is cut off or any byte of it was changed
 */
export async function* opened(file: Chunks, secret: string): AsyncGenerator<Uint8Array> {
  const decrypter = new Decrypter();
  try {
    decrypter.addIdentity(secret);
  } catch (cause) {
    throw new Error('This is no private key of a backup: one begins with AGE-SECRET-KEY-1. Nothing was changed.', { cause });
  }
  try {
    const plain = await decrypter.decrypt(streamOf(file));
    const unzipped = createGunzip();
    pipeline(Readable.from(chunksOf(plain)), unzipped, () => undefined);
    for await (const chunk of unzipped) yield chunk;
  } catch (cause) {
    if (/^E[A-Z]+$/.test(errorCode(cause) ?? '')) throw cause; // the file could not be read at all
    const wrongKey = cause instanceof Error && cause.message.includes('no identity matched');
    throw new Error(wrongKey ? keyDoesNotFit : damaged, { cause });
  }
}

export const damaged = 'This file is cut off or was changed, or is no backup. Take another copy of it. Nothing was changed.';

function streamOf(chunks: Chunks): ReadableStream<Uint8Array> {
  const iterator = chunks[Symbol.asyncIterator]();
  return new ReadableStream<Uint8Array>({
    async pull(controller): Promise<void> {
      const { done, value } = await iterator.next();
      if (done) controller.close();
      else controller.enqueue(value);
    },
    async cancel(): Promise<void> {
      await iterator.return?.();
    },
  });
}

async function* chunksOf(stream: ReadableStream<Uint8Array>): AsyncGenerator<Uint8Array> {
  const reader = stream.getReader();
  try {
    for (let next = await reader.read(); !next.done; next = await reader.read()) yield next.value;
  } finally {
    await reader.cancel().catch(() => undefined);
  }
}
