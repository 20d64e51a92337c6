import type { FastifyReply, FastifyRequest, RouteOptions } from 'fastify';
import { RateLimiterMemory } from 'rate-limiter-flexible';
import * as z from 'zod';
import { ProblemException } from './problem.js';

/** What may be sent to a route that nobody signs on to, by size: what is large costs the service as much as many that are small. */
const budget = z.object({
  /** So much a minute from one address. */
  bytesPerMinute: z.int().positive(),
  /** So much that is being sent, worked on or not yet taken by who asked, from all addresses together. */
  bytesUnderWay: z.int().positive(),
});
export type Budget = Readonly<z.infer<typeof budget>>;

const withBudget = z.object({ sent: budget });

/** Whether a route has a budget: then its bodies are handed over as they came. */
export const takesBytes = (config: object): boolean => 'sent' in config;

const retryAfterSeconds = '15';

/** Lets a body in by its size, before a byte of it is read. One that does not say how large it is counts as the largest that is taken. */
export class Budgets {
  guard(route: RouteOptions): void {
    const own = withBudget.safeParse(route.config);
    if (!own.success) return;
    const { bytesPerMinute, bytesUnderWay } = own.data.sent;
    const spent = new RateLimiterMemory({ points: bytesPerMinute, duration: 60 });
    let underWay = 0;
    /** Until the answer was taken, also where the caller went away, or never took it and was let go. */
    const hold = (bytes: number, reply: FastifyReply): void => {
      underWay += bytes;
      reply.raw.once('close', () => (underWay -= bytes));
    };
    const admit = async (request: FastifyRequest, reply: FastifyReply): Promise<void> => {
      const bytes = sizeOf(request);
      if (bytes > request.routeOptions.bodyLimit) throw new ProblemException('too-large');
      if (underWay + bytes > bytesUnderWay) throw new ProblemException('unavailable', { 'retry-after': retryAfterSeconds });
      hold(bytes, reply);
      await spent.consume(request.ip, bytes).catch(refuseOverspent);
    };
    const weigh = async (_request: FastifyRequest, reply: FastifyReply, payload: unknown): Promise<unknown> => {
      if (Buffer.isBuffer(payload)) hold(payload.length, reply);
      return payload;
    };
    route.onSend = [...[route.onSend ?? []].flat(), weigh];
    route.onRequest = [...[route.onRequest ?? []].flat(), admit];
  }
}

function sizeOf(request: FastifyRequest): number {
  const said = Number(request.headers['content-length'] ?? NaN);
  if (Number.isSafeInteger(said)) return said;
  return request.headers['transfer-encoding'] === undefined ? 0 : request.routeOptions.bodyLimit;
}

const wait = z.object({ msBeforeNext: z.number() });

function refuseOverspent(refused: unknown): never {
  const seconds = Math.max(1, Math.ceil(wait.parse(refused).msBeforeNext / 1000));
  throw new ProblemException('too-many-requests', { 'retry-after': String(seconds) });
}
