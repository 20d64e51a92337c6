import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import { readAddCheckpoint } from '@bakehouse/ledger';
import { errorMessage } from '../../platform/errors/index.js';
import type { WitnessFolder } from './witness-folder.js';

/** 63 lines of a proof and a note of a hundred signatures take less. */
const longest = 64 * 1024;

/** A witness at the end of an address: c2sp.org/tlog-witness, and its key at /. */
export function witnessServer(witness: WitnessFolder, say: (line: string) => void): Server {
  const server = createServer((request, response) => {
    serve(witness, request, response, say).catch((error: unknown) => {
      say(`FAILED  ${errorMessage(error)}`);
      answer(response, 500, 'the witness cannot read or write what it keeps\n');
    });
  });
  server.requestTimeout = 30_000;
  server.headersTimeout = 10_000;
  return server;
}

async function serve(
  witness: WitnessFolder,
  request: IncomingMessage,
  response: ServerResponse,
  say: (line: string) => void,
): Promise<void> {
  const { pathname } = new URL(request.url ?? '/', 'http://here');
  if (request.method === 'GET' && pathname === '/') return answer(response, 200, `${witness.key}\n`);
  if (pathname !== '/add-checkpoint') return answer(response, 404, 'POST /add-checkpoint (c2sp.org/tlog-witness)\n');
  if (request.method !== 'POST') return answer(response, 405, 'POST\n');
  const body = await readShort(request);
  if (body === undefined) return answer(response, 413, 'too long\n', { connection: 'close' });
  const asked = readAddCheckpoint(body);
  if (!asked) return answer(response, 400, 'not of the form of add-checkpoint\n');
  const judged = witness.judge(asked);
  const [origin = '', size = ''] = asked.note.split('\n');
  say(`${judged.status}  ${JSON.stringify(origin)}, ${JSON.stringify(size)} records${words[judged.status]}`);
  if (judged.status === 200) return answer(response, 200, `${judged.line}\n`);
  if (judged.status === 409) return answer(response, 409, `${judged.size}\n`, { 'content-type': 'text/x.tlog.size' });
  answer(response, judged.status, `${words[judged.status].replace(/^: /, '')}\n`);
}

const words = {
  200: ': signed',
  400: ': the request is not in order',
  403: ': not signed with the key of this book',
  404: ': a book that this witness was not given the key of',
  409: ': another seal was signed before',
  422: ': REFUSED, not shown to extend what was signed before; kept under "refused"',
} as const;

function answer(response: ServerResponse, status: number, text: string, headers: Readonly<Record<string, string>> = {}): void {
  response.writeHead(status, { 'content-type': 'text/plain; charset=utf-8', ...headers }).end(text);
}

/** The body as text; undefined where it is longer than any that is in order. */
async function readShort(request: AsyncIterable<Uint8Array>): Promise<string | undefined> {
  const parts: Uint8Array[] = [];
  let length = 0;
  for await (const part of request) {
    length += part.length;
    if (length > longest) return undefined;
    parts.push(part);
  }
  return Buffer.concat(parts).toString('utf8');
}
