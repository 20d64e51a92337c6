import { X509Certificate, createPrivateKey } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import type { RequestListener, ServerOptions } from 'node:http';
import { createServer, type Server } from 'node:https';
import { createSecureContext } from 'node:tls';
import type { Config } from '../config/index.js';
import { errorMessage } from '../errors/index.js';

type Files = Pick<Config, 'TLS_CERT_FILE' | 'TLS_KEY_FILE'>;
export interface Tls {
  readonly cert: string;
  readonly key: string;
}

const lookMs = 5000;

/**
 * The certificate and key of the settings, read and held against each other; undefined where none are set.
 * @throws with a sentence where one is missing, cannot be read, or does not fit the other
 */
export async function readTls({ TLS_CERT_FILE: certFile, TLS_KEY_FILE: keyFile }: Files): Promise<Tls | undefined> {
  if (certFile === undefined && keyFile === undefined) return undefined;
  if (certFile === undefined || keyFile === undefined)
    throw new Error(
      `Only ${certFile === undefined ? 'TLS_KEY_FILE' : 'TLS_CERT_FILE'} is set: TLS needs a certificate and its key. Set both or neither.`,
    );
  const [cert, key] = await Promise.all([textOf(certFile), textOf(keyFile)]);
  const unusable = (cause: unknown): Error =>
    new Error(`The certificate in ${certFile} and the key in ${keyFile} cannot be used: ${errorMessage(cause)}.`, { cause });
  let fits: boolean;
  try {
    fits = new X509Certificate(cert).checkPrivateKey(createPrivateKey(key));
  } catch (cause) {
    throw unusable(cause);
  }
  if (!fits) throw new Error(`The key in ${keyFile} is not that of the certificate in ${certFile}.`);
  try {
    createSecureContext({ cert, key });
  } catch (cause) {
    throw unusable(cause);
  }
  return { cert, key };
}

/** What makes Fastify's server speak TLS alone: with the same limits as the plain one, and no version of TLS that is out of use. */
export const overTls =
  (tls: Tls, limits: ServerOptions & { readonly requestTimeout: number }) =>
  (handler: RequestListener): Server =>
    createServer({ ...limits, ...tls, minVersion: 'TLSv1.2' }, handler);

async function textOf(file: string): Promise<string> {
  return readFile(file, 'utf8').catch((cause: unknown) => {
    throw new Error(`${file} cannot be read: ${errorMessage(cause)}. TLS needs it.`, { cause });
  });
}

/**
 * Takes a renewed certificate and key over for connections from then on; what cannot be used is said and leaves the old ones in place. Looks every few
 * seconds, also where the files are links that are changed. Answers with what ends it.
 */
export function followTls(take: (tls: Tls) => void, files: Files, say: (line: string) => void, everyMs = lookMs): () => void {
  const watched = [files.TLS_CERT_FILE, files.TLS_KEY_FILE].filter((file) => file !== undefined);
  const renew = (): void =>
    void readTls(files).then(
      (tls) => {
        if (tls) take(tls);
      },
      (error: unknown) => say(`The renewed certificate is not taken over: ${errorMessage(error)}`),
    );
  let seen = textNow(watched);
  const timer = setInterval(() => {
    const now = textNow(watched);
    if (now === seen) return;
    seen = now;
    renew();
  }, everyMs).unref();
  return () => {
    clearInterval(timer);
  };
}

/** What stands in the files, from the moment that they are followed; nothing of one that is away just now. */
const textNow = (files: readonly string[]): string =>
  files
    .map((file) => {
      try {
        return readFileSync(file, 'utf8');
      } catch {
        return '';
      }
    })
    .join();
