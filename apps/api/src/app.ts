import { randomUUID } from 'node:crypto';
import path from 'node:path';
import { NestFactory } from '@nestjs/core';
import { FastifyAdapter, type NestFastifyApplication } from '@nestjs/platform-fastify';
import { ConsoleLogger, type DynamicModule, type LoggerService, type LogLevel, type Type } from '@nestjs/common';
import { apiExtensions, AppModule } from './app.module.js';
import { projectRoot, type Config } from './platform/config/index.js';
import {
  acceptImages,
  addHeaders,
  AllowedMethods,
  applyLimits,
  compressAnswers,
  letGoOfStalled,
  ProblemFilter,
  overTls,
  readsJson,
  readTls,
  refuseAddress,
  refuseUnreadable,
  securityHeaders,
  serveApiPage,
  serveWeb,
  timeLimits,
  usualBodyLimit,
  validationPipe,
  watchRequests,
} from './platform/http/index.js';
import { Metrics } from './platform/metrics/index.js';
import type { PlatformOptions } from './platform/platform.module.js';

const levels: Readonly<Record<Config['LOG_LEVEL'], LogLevel[] | false>> = {
  silent: false,
  error: ['error', 'fatal'],
  warn: ['error', 'fatal', 'warn'],
  info: ['error', 'fatal', 'warn', 'log'],
  debug: ['error', 'fatal', 'warn', 'log', 'debug'],
};

function loggerOf({ LOG_LEVEL, LOG_FORMAT }: Config): LoggerService | LogLevel[] | false {
  const logLevels = levels[LOG_LEVEL];
  return LOG_FORMAT === 'text' || logLevels === false ? logLevels : new ConsoleLogger({ json: true, logLevels });
}

export interface AppOptions extends Omit<PlatformOptions, 'instance'> {
  readonly instance?: string;
  /** The built web app; a folder without one serves the API alone. */
  readonly webFolder?: string;
}

/** The whole application, ready to listen or to be asked without. */
export function createApp({
  instance = randomUUID(),
  webFolder = path.join(projectRoot, 'apps/web/dist'),
  ...options
}: AppOptions): Promise<NestFastifyApplication> {
  const metrics = options.metrics ?? new Metrics();
  return serveModule(AppModule.of({ ...options, instance, metrics }), options.config, webFolder, metrics);
}

/** A module behind the edge that everything here stands behind: limits, headers, problems, the API's page and the web app, on one port. */
export async function serveModule(
  module: DynamicModule | Type,
  config: Config,
  webFolder: string,
  metrics: Metrics = new Metrics(),
): Promise<NestFastifyApplication> {
  const tls = await readTls(config);
  const { requestTimeout, http } = timeLimits(config);
  const adapter = new FastifyAdapter({
    bodyLimit: usualBodyLimit,
    genReqId: () => randomUUID(),
    trustProxy: config.TRUST_PROXY ?? false,
    forceCloseConnections: 'idle',
    frameworkErrors: refuseAddress,
    clientErrorHandler: refuseUnreadable,
    requestTimeout,
    http,
    ...(tls && { serverFactory: overTls(tls, { ...http, requestTimeout }) }),
  });
  const fastify = adapter.getInstance();
  const allowed = new AllowedMethods(fastify);
  letGoOfStalled(fastify, config);
  addHeaders(fastify);
  watchRequests(fastify, metrics, config);
  await applyLimits(fastify);
  await compressAnswers(fastify);
  acceptImages(fastify);
  const app = await NestFactory.create<NestFastifyApplication>(module, adapter, { logger: loggerOf(config), abortOnError: false });
  app.useBodyParser('application/json', { bodyLimit: usualBodyLimit }, readsJson);
  app.setGlobalPrefix('api/v1');
  app.useSecurityHeaders(securityHeaders);
  app.enableCsrfProtection();
  app.useGlobalPipes(validationPipe);
  app.useGlobalFilters(new ProblemFilter(allowed, metrics));
  serveApiPage(app, fastify, apiExtensions);
  await serveWeb(fastify, webFolder);
  await app.init();
  await fastify.ready();
  return app;
}
