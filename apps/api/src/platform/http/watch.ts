import { createHash, timingSafeEqual } from 'node:crypto';
import { Logger } from '@nestjs/common';
import type { FastifyInstance, FastifyRequest } from 'fastify';
import type { Config } from '../config/index.js';
import type { Metrics } from '../metrics/index.js';

/**
 * Measures every request and tells of it in the log, by its route and never by its address: what is in an address may be somebody's. Where a token for
 * it is set, /metrics answers to it; without one there is no such address.
 */
export function watchRequests(instance: FastifyInstance, metrics: Metrics, config: Pick<Config, 'METRICS_TOKEN' | 'LOG_FORMAT'>): void {
  const log = new Logger('Request');
  instance.addHook('onResponse', (request, reply, done) => {
    const took = { method: request.method, route: request.routeOptions.url ?? 'none', status: reply.statusCode };
    metrics.request(took, reply.elapsedTime / 1000);
    const ms = Math.round(reply.elapsedTime);
    const { method, route, status } = took;
    log.log(config.LOG_FORMAT === 'json' ? { ...took, ms, request: request.id } : `${method} ${route} ${status} ${ms} ms (${request.id})`);
    done();
  });
  const { METRICS_TOKEN } = config;
  if (METRICS_TOKEN === undefined) return;
  metrics.ofProcess();
  instance.get('/metrics', async (request, reply) => {
    if (!presents(request, METRICS_TOKEN)) return reply.callNotFound();
    return reply.type(metrics.contentType).send(await metrics.text());
  });
}

const digest = (text: string): Buffer => createHash('sha256').update(text).digest();

function presents(request: FastifyRequest, token: string): boolean {
  const given = /^Bearer (\S+)$/i.exec(request.headers.authorization ?? '')?.[1];
  return given !== undefined && timingSafeEqual(digest(given), digest(token));
}
