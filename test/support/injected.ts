import { brotliDecompressSync, gunzipSync, inflateSync } from 'node:zlib';
import type { LightMyRequestResponse } from 'fastify';
import type { TestApp } from './app.js';

export interface Sent {
  readonly method: 'GET' | 'POST' | 'PUT' | 'DELETE';
  readonly url: string;
  readonly headers: Readonly<Record<string, string>>;
  readonly payload: string | Buffer | undefined;
  /** As if from anywhere: what is counted for an address is another test's. */
  readonly remoteAddress: string;
}

export interface Answer {
  readonly status: number;
  readonly type: string;
  readonly retryAfter: string | undefined;
  readonly text: string;
}

/** No request of a test asks for more than a fraction of a second's work; on a machine that does other work as well it may wait its turn. */
const hangMs = 30_000;

/** Sends it without a socket; of events, which do not end, the beginning is the answer. */
export async function injected(t: TestApp, { method, url, headers, payload, remoteAddress }: Sent): Promise<Answer> {
  const streamed = /\/events(\?|$)/.test(url);
  const leave = new AbortController();
  const answer = t.app.inject({
    method,
    url,
    headers,
    remoteAddress,
    ...(payload === undefined ? {} : { payload }),
    ...(streamed ? { payloadAsStream: true, signal: leave.signal } : {}),
  });
  let hang: NodeJS.Timeout | undefined;
  const late = new Promise<never>((_, reject) => {
    hang = setTimeout(() => reject(new Error(`no answer within ${hangMs} ms`)), hangMs);
  });
  try {
    return await Promise.race([answer.then((response) => readOf(response, streamed, leave)), late]);
  } finally {
    clearTimeout(hang);
  }
}

async function readOf(response: LightMyRequestResponse, streamed: boolean, leave: AbortController): Promise<Answer> {
  const { statusCode: status, headers } = response;
  const head = { status, type: String(headers['content-type'] ?? ''), retryAfter: headers['retry-after']?.toString() };
  if (!streamed) return { ...head, text: unpacked(response.rawPayload, headers['content-encoding']) };
  const stream = response.stream().on('error', () => undefined);
  if (status === 200) {
    leave.abort();
    return { ...head, text: '' };
  }
  const parts: Buffer[] = [];
  for await (const part of stream) parts.push(Buffer.from(part));
  return { ...head, text: Buffer.concat(parts).toString() };
}

const packings = new Map([
  ['br', brotliDecompressSync],
  ['gzip', gunzipSync],
  ['deflate', inflateSync],
]);

/** @throws where it is packed in a way that nobody asked for */
function unpacked(bytes: Buffer, packing: string | string[] | number | undefined): string {
  if (packing === undefined || packing === 'identity' || bytes.length === 0) return bytes.toString();
  const unpack = packings.get(String(packing));
  if (unpack === undefined) throw new Error(`packed as ${String(packing)}`);
  return unpack(bytes).toString();
}
