import { Catch, HttpException, Logger, type ArgumentsHost, type ExceptionFilter } from '@nestjs/common';
import type { Problem, ProblemCode } from '@bakehouse/kernel';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { errorCode, errorMessage } from '../errors/index.js';
import type { Metrics } from '../metrics/index.js';
import type { AllowedMethods } from './allowed-methods.js';
import { ProblemException, toDocument, type ProblemDocument } from './problem.js';

const byCode: Readonly<Record<string, ProblemCode>> = {
  FST_ERR_CTP_BODY_TOO_LARGE: 'too-large',
  FST_ERR_CTP_INVALID_JSON_BODY: 'malformed-json',
  FST_ERR_CTP_EMPTY_JSON_BODY: 'malformed-json',
  FST_ERR_CTP_INVALID_MEDIA_TYPE: 'unsupported-media-type',
  FST_ERR_CTP_INVALID_CONTENT_LENGTH: 'malformed',
  // text that the database cannot hold (a NUL, half a character), and a day or an instant that it does not know
  '22021': 'malformed',
  '22P05': 'malformed',
  '22007': 'malformed',
  '22008': 'malformed',
  '22009': 'malformed',
  // the database is gone, is starting, is stopping, or has no connection to spare
  ECONNREFUSED: 'unavailable',
  ECONNRESET: 'unavailable',
  '57P01': 'unavailable',
  '57P02': 'unavailable',
  '57P03': 'unavailable',
  '53300': 'unavailable',
  EPIPE: 'unavailable',
  '08003': 'unavailable',
  '08006': 'unavailable',
  '53100': 'disk-full',
  '57014': 'unavailable',
  '40001': 'unavailable',
  '40P01': 'unavailable',
};
/** What the database's client says without a code when a connection broke, or none came free in time. */
const awayWords = new RegExp(
  `^(${[
    'Connection terminated',
    'Client has encountered a connection error',
    'Client was closed',
    'timeout exceeded when trying to connect',
    'database .* is not currently accepting connections',
  ].join('|')})`,
);
const byStatus: Readonly<Record<number, ProblemCode>> = {
  403: 'not-permitted',
  404: 'not-found',
  405: 'method-not-allowed',
  413: 'too-large',
  414: 'address-too-long',
  415: 'unsupported-media-type',
  429: 'too-many-requests',
  503: 'unavailable',
};

interface Answer {
  readonly problem: Problem;
  readonly headers?: Readonly<Record<string, string>>;
}

/** Answers whatever was thrown with problem+json. What nobody foresaw goes to the log with the request's number, never to the caller. */
@Catch()
export class ProblemFilter implements ExceptionFilter {
  private readonly log = new Logger('http');

  constructor(
    private readonly allowed: AllowedMethods,
    private readonly metrics: Metrics,
  ) {}

  catch(error: unknown, host: ArgumentsHost): void {
    const request = host.switchToHttp().getRequest<FastifyRequest>();
    const reply = host.switchToHttp().getResponse<FastifyReply>();
    const { problem, headers } = this.answer(error, request);
    const document = toDocument(problem, request.id);
    this.metrics.problem(problem.problem);
    if (document.status >= 500 && !wentAway(request))
      this.log.error(
        `${request.method} ${request.routeOptions.url ?? 'none'} (${request.id}): ${errorMessage(error)}`,
        error instanceof Error ? error.stack : undefined,
      );
    if (reply.sent || reply.raw.headersSent) {
      reply.raw.destroy(); // the answer is half out: cut it off, so that nobody takes it for whole
      return;
    }
    sendProblem(reply.headers({ ...headers }), document, request.id);
  }

  private answer(error: unknown, request: FastifyRequest): Answer {
    const cause = causeOf(error);
    if (cause instanceof ProblemException) return cause;
    const known = byCode[errorCode(cause) ?? ''] ?? (awayWords.test(errorMessage(cause)) ? 'unavailable' : undefined);
    if (known !== undefined) return { problem: { problem: known } };
    const status = statusOf(error);
    if (status === 404) return this.notFound(request);
    if (status === 403 && crossSite(request)) return { problem: { problem: 'cross-site' } };
    const problem = byStatus[status] ?? (status >= 400 && status < 500 ? 'malformed' : 'internal');
    return { problem: { problem } };
  }

  private notFound(request: FastifyRequest): Answer {
    const methods = this.allowed.at(request.url);
    if (methods.length === 0 || methods.includes(request.method)) return { problem: { problem: 'not-found' } };
    return { problem: { problem: 'method-not-allowed', acceptable: methods.join(', ') }, headers: { allow: methods.join(', ') } };
  }
}

/** The number goes out here too: some refusals come before the hook that adds it. */
function sendProblem(reply: FastifyReply, document: ProblemDocument, request: string): void {
  void reply
    .status(document.status)
    .header('x-request-id', request)
    .type('application/problem+json; charset=utf-8')
    .send(JSON.stringify(document));
}

/** Answers an address that cannot even be read: the router refuses it before any hook or filter. */
export function refuseAddress(error: { readonly statusCode?: number }, request: FastifyRequest, reply: FastifyReply): void {
  sendProblem(
    reply.header('x-content-type-options', 'nosniff'),
    toDocument({ problem: byStatus[error.statusCode ?? 400] ?? 'malformed' }, request.id),
    request.id,
  );
}

/** The adapter wraps Fastify's errors; their codes stand inside. */
const causeOf = (error: unknown): unknown => (error instanceof HttpException && error.cause !== undefined ? error.cause : error);

function statusOf(error: unknown): number {
  if (error instanceof HttpException) return error.getStatus();
  const given = typeof error === 'object' && error !== null && 'statusCode' in error ? error.statusCode : undefined;
  return typeof given === 'number' ? given : 500;
}

/** Whether the other side closed the connection before its request was here: that is no fault of the service's. */
const wentAway = ({ raw }: FastifyRequest): boolean => raw.destroyed && !raw.complete;

/** Whether a refusal came from the check of where a request comes from: it stands before every route. */
function crossSite(request: FastifyRequest): boolean {
  const from = request.headers['sec-fetch-site'];
  const origin = request.headers.origin;
  return from === undefined
    ? origin !== undefined && (!URL.canParse(origin) || new URL(origin).host !== request.headers.host)
    : from !== 'same-origin' && from !== 'none';
}
