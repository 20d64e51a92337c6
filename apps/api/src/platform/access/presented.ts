import type { FastifyRequest } from 'fastify';
import { ProblemException } from '../http/problem.js';
import { cookieOf, deviceCookie, sessionCookie } from './cookies.js';
import { readToken, type Presented } from './tokens.js';

const safe: ReadonlySet<string> = new Set(['GET', 'HEAD', 'OPTIONS']);

/** The session's token of a request: a bearer's first, else the cookie's. */
export function sessionToken(request: FastifyRequest): Presented | undefined {
  const bearer = /^Bearer ([^\s]+)$/i.exec(request.headers.authorization ?? '')?.[1];
  return readToken(bearer ?? cookieOf(request, sessionCookie));
}

/** The device's token: from the header for programs, else the cookie's. */
export function deviceToken(request: FastifyRequest): Presented | undefined {
  const header = request.headers['x-device-token'];
  return readToken(typeof header === 'string' ? header : cookieOf(request, deviceCookie));
}

/**
 * Refuses what a browser's cookies would be used for without the browser saying where it comes from. Another site's requests
 * are refused before any route; this closes the gap of those that name no site at all.
 * @throws ProblemException
 */
export function refuseUnsaid(request: FastifyRequest): void {
  const { authorization, origin, 'sec-fetch-site': from } = request.headers;
  if (safe.has(request.method) || authorization !== undefined || origin !== undefined || from !== undefined) return;
  if ([sessionCookie, deviceCookie].some((name) => cookieOf(request, name) !== undefined)) throw new ProblemException('cross-site');
}
