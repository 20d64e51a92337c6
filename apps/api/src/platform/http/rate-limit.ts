import fastifyRateLimit from '@fastify/rate-limit';
import { RouteConfig } from '@nestjs/platform-fastify';
import type { FastifyInstance } from 'fastify';

/** At most so many requests a minute from one address, for a route that nobody signs on to. */
export const RateLimit = (perMinute: number): MethodDecorator => RouteConfig({ rateLimit: { max: perMinute, timeWindow: 60_000 } });

/** Gives Fastify the limits that routes declare. Before any route is registered. */
export async function heedRateLimits(instance: FastifyInstance): Promise<void> {
  await instance.register(fastifyRateLimit, {
    global: false,
    errorResponseBuilder: (_request, context) => Object.assign(new Error('too many requests'), { statusCode: context.statusCode }),
  });
}
