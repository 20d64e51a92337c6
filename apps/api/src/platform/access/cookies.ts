import { parseCookie, stringifySetCookie } from 'cookie';
import type { FastifyReply, FastifyRequest } from 'fastify';

export const sessionCookie = 'bakehouse_session';
export const deviceCookie = 'bakehouse_device';

/** The cookies of a request's header, by name. */
export const readCookies = (header: string | undefined): Readonly<Record<string, string | undefined>> => parseCookie(header ?? '');

/** One cookie of a request; of two by the same name the first, as browsers send the more specific one first. */
export const cookieOf = (request: FastifyRequest, name: string): string | undefined => readCookies(request.headers.cookie)[name];

/** Sets a cookie that no script reads and no other site sends; over TLS only where the request came over TLS. */
export function setCookie(request: FastifyRequest, reply: FastifyReply, name: string, value: string, seconds: number): void {
  const secure = request.protocol === 'https';
  void reply.header(
    'set-cookie',
    stringifySetCookie({ name, value, path: '/api', maxAge: seconds, httpOnly: true, sameSite: 'strict', secure }),
  );
}

export const clearCookie = (request: FastifyRequest, reply: FastifyReply, name: string): void => setCookie(request, reply, name, '', 0);
