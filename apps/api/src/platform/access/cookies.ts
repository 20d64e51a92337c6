import type { FastifyReply, FastifyRequest } from 'fastify';

export const sessionCookie = 'bakehouse_session';
export const deviceCookie = 'bakehouse_device';

/** One cookie of a request; of two by the same name the first, as browsers send the more specific one first. */
export function cookieOf(request: FastifyRequest, name: string): string | undefined {
  const pairs = (request.headers.cookie ?? '').split(';').map((pair) => pair.trim());
  return pairs.find((pair) => pair.startsWith(`${name}=`))?.slice(name.length + 1);
}

/** Sets a cookie that no script reads and no other site sends; over TLS only where the request came over TLS. */
export function setCookie(request: FastifyRequest, reply: FastifyReply, name: string, value: string, seconds: number): void {
  const secure = request.protocol === 'https' ? '; Secure' : '';
  void reply.header('set-cookie', `${name}=${value}; Path=/api; Max-Age=${seconds}; HttpOnly; SameSite=Strict${secure}`);
}

export const clearCookie = (request: FastifyRequest, reply: FastifyReply, name: string): void => setCookie(request, reply, name, '', 0);
