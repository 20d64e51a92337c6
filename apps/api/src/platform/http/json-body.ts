import { readJson } from '@bakehouse/kernel';
import type { FastifyRequest } from 'fastify';
import { takesBytes } from './budget.js';
import { ProblemException } from './problem.js';

/** Reads a JSON body, or hands it on as it came where the route has it read in another thread. */
export function readsJson(request: FastifyRequest, body: Buffer, done: (error: Error | null, value?: unknown) => void): void {
  if (takesBytes(request.routeOptions.config)) {
    done(null, body);
    return;
  }
  const read = readJson(body.toString('utf8'));
  if (read.ok) done(null, read.value);
  else done(new ProblemException(read));
}
