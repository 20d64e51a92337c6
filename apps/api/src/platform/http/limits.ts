import fastifyRateLimit from '@fastify/rate-limit';
import { RouteConfig } from '@nestjs/platform-fastify';
import type { FastifyInstance } from 'fastify';
import * as z from 'zod';
import { Budgets, type Budget } from './budget.js';

/** How many bytes a body may have where a route says nothing else: 200 entries of ten kilobytes each. */
export const usualBodyLimit = 2 * 1024 * 1024;

/** The same for entries: what closes a case names every lot that stays on hold, forty bytes each, two hundred thousand of them at most. */
export const entriesBodyLimit = 12 * 1024 * 1024;

interface RouteLimits {
  /** The largest body, in bytes: larger or only smaller than usual. */
  readonly bodyBytes?: number;
  /** Requests a minute from one address, for a route that nobody signs on to. */
  readonly perMinute?: number;
  /** What may be sent to such a route, and is handed over as the bytes that came: another thread reads them. */
  readonly sent?: Budget;
}

/** Limits of one route. One decorator for all of them: Nest keeps one configuration a route, and a second would silently take the first away. */
export const Limits = ({ bodyBytes, perMinute, sent }: RouteLimits): MethodDecorator =>
  RouteConfig({
    ...(bodyBytes === undefined ? {} : { bodyLimit: bodyBytes }),
    ...(sent === undefined ? {} : { sent }),
    ...(perMinute === undefined ? {} : { rateLimit: { max: perMinute, timeWindow: 60_000 } }),
  });

const asked = z.object({ bodyLimit: z.int().positive() });

/** Gives Fastify the limits that routes declare. Before any route is registered. */
export async function applyLimits(instance: FastifyInstance): Promise<void> {
  const budgets = new Budgets();
  instance.addHook('onRoute', (route) => {
    budgets.guard(route);
    const own = asked.safeParse(route.config);
    if (own.success) route.bodyLimit = own.data.bodyLimit;
  });
  await instance.register(fastifyRateLimit, {
    global: false,
    enableDraftSpec: true, // RateLimit-Limit, -Remaining, -Reset: draft-ietf-httpapi-ratelimit-headers before it had one field
    errorResponseBuilder: (_request, context) => Object.assign(new Error('too many requests'), { statusCode: context.statusCode }),
  });
}
