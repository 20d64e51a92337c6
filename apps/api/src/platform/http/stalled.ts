import type { IncomingMessage, ServerOptions, ServerResponse } from 'node:http';
import type { Socket } from 'node:net';
import type { FastifyInstance } from 'fastify';
import type { Config } from '../config/index.js';
import { refuseUnreadable } from './client-error.js';

type Limits = Pick<Config, 'STALLED_SECONDS' | 'REQUEST_SECONDS'>;

/** For how long a request may arrive: its head, and the whole of it. Node looks once a second. */
export function timeLimits({ STALLED_SECONDS, REQUEST_SECONDS }: Limits): { requestTimeout: number; http: ServerOptions } {
  const [head, whole] = [STALLED_SECONDS * 1000, Math.max(STALLED_SECONDS, REQUEST_SECONDS) * 1000];
  return { requestTimeout: whole, http: { headersTimeout: head, connectionsCheckingInterval: 1000 } };
}

interface Exchange {
  readonly request: IncomingMessage;
  readonly response: ServerResponse;
}

/**
 * Ends a connection on which nothing moves although the other side is to send or to read. Who waits for the service, for work that takes longer
 * or for news, keeps it: nothing moves there for want of an answer, and that is not theirs to mend.
 */
export function letGoOfStalled(instance: FastifyInstance, { STALLED_SECONDS }: Limits): void {
  const latest = new WeakMap<Socket, Exchange>();
  instance.server.setTimeout(STALLED_SECONDS * 1000);
  instance.server.on('request', (request: IncomingMessage, response: ServerResponse) => latest.set(request.socket, { request, response }));
  instance.server.on('timeout', (socket: Socket) => {
    const at = latest.get(socket);
    if (at === undefined ? socket.bytesRead > 0 : !at.request.complete && !at.response.headersSent) {
      refuseUnreadable({ code: 'ERR_HTTP_REQUEST_TIMEOUT' }, socket);
    } else if (at === undefined || at.response.writableFinished) {
      socket.destroy(); // nothing was asked, or all was answered
    } else if (!at.request.complete || socket.writableLength > 0) {
      socket.destroy();
    }
  });
}
