import { randomUUID } from 'node:crypto';
import { STATUS_CODES } from 'node:http';
import type { Socket } from 'node:net';
import { toDocument } from './problem.js';

/** Answers what cannot even be read as a request: it comes before any hook, filter or route. */
export function refuseUnreadable(error: { readonly code?: string }, socket: Socket): void {
  if (error.code === 'ECONNRESET' || !socket.writable) {
    socket.destroy();
    return;
  }
  const request = randomUUID();
  const document = toDocument({ problem: error.code === 'HPE_HEADER_OVERFLOW' ? 'address-too-long' : 'malformed' }, request);
  const body = JSON.stringify(document);
  const head = [
    `HTTP/1.1 ${document.status} ${STATUS_CODES[document.status] ?? ''}`,
    `content-type: application/problem+json; charset=utf-8`,
    `content-length: ${Buffer.byteLength(body)}`,
    `x-request-id: ${request}`,
    'x-content-type-options: nosniff',
    'connection: close',
  ];
  socket.end(`${head.join('\r\n')}\r\n\r\n${body}`);
}
