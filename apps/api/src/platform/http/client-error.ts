import { randomUUID } from 'node:crypto';
import { STATUS_CODES } from 'node:http';
import type { Socket } from 'node:net';
import type { ProblemCode } from '@bakehouse/kernel';
import { toDocument } from './problem.js';

const byCode: Readonly<Record<string, ProblemCode>> = { HPE_HEADER_OVERFLOW: 'address-too-long', ERR_HTTP_REQUEST_TIMEOUT: 'too-slow' };

/** Answers what cannot even be read as a request: it comes before any hook, filter or route. */
export function refuseUnreadable(error: { readonly code?: string }, socket: Socket): void {
  if (error.code === 'ECONNRESET' || !socket.writable) {
    socket.destroy();
    return;
  }
  const request = randomUUID();
  const document = toDocument({ problem: byCode[error.code ?? ''] ?? 'malformed' }, request);
  const body = JSON.stringify(document);
  const head = [
    `HTTP/1.1 ${document.status} ${STATUS_CODES[document.status] ?? ''}`,
    `content-type: application/problem+json; charset=utf-8`,
    `content-length: ${Buffer.byteLength(body)}`,
    `x-request-id: ${request}`,
    'x-content-type-options: nosniff',
    'connection: close',
  ];
  socket.write(`${head.join('\r\n')}\r\n\r\n${body}`);
  socket.destroySoon(); // and not only its own side: who was let go for sending nothing need not close the other
}
