import * as z from 'zod';
import { answer, type Door, type DoorReply } from './door.js';

const problemJson = z.object({
  type: z.string(),
  title: z.string(),
  detail: z.string(),
  field: z.string().optional(),
  acceptable: z.string().optional(),
});
const answers = z.array(answer);

export interface HttpDoorPorts {
  readonly fetch: typeof fetch;
  /** A token for whoever typed the entries, `null` to go by the browser's cookie, or undefined where nobody is signed on for them. */
  tokenFor(person: string): Promise<string | null | undefined>;
  /** That token was not good any more. */
  tokenFailed(person: string): void;
  readonly timeoutMs?: number;
}

/** The door over HTTP. Whatever is not a sensible answer counts as not reached: the network of a hotel answers 200 to everything. */
export function httpDoor({ fetch, tokenFor, tokenFailed, timeoutMs = 20_000 }: HttpDoorPorts): Door {
  return {
    async send({ book, bookType, typedBy }, entries): Promise<DoorReply> {
      try {
        const token = await tokenFor(typedBy);
        if (token === undefined) return { as: 'not-signed-on' };
        const response = await fetch(`/api/v1/${bookType === 'site' ? `sites/${book}` : 'organisation'}/entries`, {
          method: 'POST',
          body: JSON.stringify(entries),
          signal: AbortSignal.timeout(timeoutMs),
          headers: { 'content-type': 'application/json', ...(token === null ? {} : { authorization: `Bearer ${token}` }) },
        });
        const reply = await replyOf(response, entries.length);
        if (reply.as === 'not-signed-on') tokenFailed(typedBy);
        return reply;
      } catch {
        return { as: 'unreachable' };
      }
    },
  };
}

async function replyOf(response: Response, sent: number): Promise<DoorReply> {
  const body: unknown = await response.json();
  if (response.ok) {
    const read = answers.safeParse(body);
    return read.success && read.data.length === sent ? { as: 'answered', answers: read.data } : { as: 'unreachable' };
  }
  if (response.status === 401) return { as: 'not-signed-on' };
  const again = Number(response.headers.get('retry-after'));
  if (response.status === 429 || response.status >= 500) return { as: 'unreachable', ...(again > 0 ? { afterMs: again * 1000 } : {}) };
  const { data } = problemJson.safeParse(body);
  if (!data) return { as: 'unreachable' };
  const { type, title, detail, field, acceptable } = data;
  return { as: 'refused', problem: { problem: type.slice(type.lastIndexOf('/') + 1), title, detail, field, acceptable } };
}
