import { RouteConfig } from '@nestjs/platform-fastify';
import type { FastifyInstance } from 'fastify';
import * as z from 'zod';

/** How many bytes a body may have where a route says nothing else: 200 entries of ten kilobytes each. */
export const usualBodyLimit = 2 * 1024 * 1024;

/** Lets one route take larger (or only smaller) bodies; in bytes. */
export const BodyLimit = (bytes: number): MethodDecorator => RouteConfig({ bodyLimit: bytes });

const asked = z.object({ bodyLimit: z.int().positive() });

/** Gives Fastify the limits that routes declare. Before any route is registered. */
export function heedBodyLimits(instance: FastifyInstance): void {
  instance.addHook('onRoute', (route) => {
    const own = asked.safeParse(route.config);
    if (own.success) route.bodyLimit = own.data.bodyLimit;
  });
}
