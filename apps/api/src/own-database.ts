import { fork } from 'node:child_process';
import path from 'node:path';
import * as z from 'zod';
import { childEnvironment, type Config } from './platform/config/index.js';
import { EmbeddedPostgres, serviceDatabase, type ServiceDatabase } from './platform/database/index.js';

/** What the process that prepares the database tells the service: how far it is, then whom to log in as, or why not. */
export const told = z.union([
  z.object({ says: z.string() }),
  z.object({ serviceUrl: z.string(), lines: z.array(z.string()) }),
  z.object({ failed: z.string() }),
]);
export type Prepared = z.infer<typeof told>;

interface Options {
  readonly say: (line: string) => void;
  readonly onLost: () => void;
  /** A start that is given up ends the database that it was about to have. */
  readonly signal: AbortSignal;
}

/**
 * Our own database, for the service: started, migrated and, where it is empty, filled with the demo by a process that has its owner's login and ends. This
 * one is told the login of the service's role and nothing else.
 */
export async function ownDatabase(
  config: Pick<Config, 'DATA_DIR'>,
  { say, onLost, signal }: Options,
): Promise<ServiceDatabase & { readonly lines: readonly string[] }> {
  const { serviceUrl, lines } = await prepared(say, signal);
  const server = await EmbeddedPostgres.beside(path.join(config.DATA_DIR, 'postgres'), onLost);
  try {
    return { ...(await serviceDatabase(serviceUrl)), lines, stop: () => server.stop() };
  } catch (error) {
    await server.stop();
    throw error;
  }
}

/** In a process group of its own: Ctrl-C reaches the service, which waits until the database can be ended in order. */
function prepared(say: Options['say'], signal: AbortSignal): Promise<Extract<Prepared, { serviceUrl: string }>> {
  return new Promise((resolve, reject) => {
    const child = fork(path.join(import.meta.dirname, 'prepare-own-database.js'), {
      detached: true,
      env: childEnvironment(),
      stdio: ['ignore', 'ignore', 'inherit', 'ipc'],
    });
    const stop = (): void => void child.send('stop', () => undefined);
    if (signal.aborted) stop();
    signal.addEventListener('abort', stop, { once: true });
    let result: Prepared | undefined;
    child.on('message', (message) => {
      const one = told.parse(message);
      if ('says' in one) say(one.says);
      else result = one;
    });
    child.once('error', reject);
    child.once('close', (code) => {
      signal.removeEventListener('abort', stop);
      if (result && 'serviceUrl' in result) resolve(result);
      else
        reject(
          new Error(result && 'failed' in result ? result.failed : `The database could not be prepared: its process ended with ${code}.`),
        );
    });
  });
}
