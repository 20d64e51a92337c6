import { asking, onlyInNameOf, type Asking, type Reply, type Tokens } from '@bakehouse/api-client';
import * as z from 'zod';
import { answer, type Answer, type Door, type DoorReply } from './door.js';

const answers = z.array(answer);

/** The door over HTTP, with a device's tokens; `over` is how to get there, where this is no page of the service. */
export function httpDoor(tokens: Tokens, over: Pick<Asking, 'fetch' | 'origin'> = {}): Door {
  return {
    async send({ book, bookType, typedBy }, entries): Promise<DoorReply> {
      const ask = asking({ as: onlyInNameOf(tokens, typedBy), timeoutMs: 20_000, ...over });
      const fixed = { body: [], bodySerializer: () => JSON.stringify(entries) }; // as they were saved, perhaps by an earlier version of this app
      const reply =
        bookType === 'site'
          ? await ask('post', '/sites/{site}/entries', answers, { params: { path: { site: book } }, ...fixed })
          : await ask('post', '/organisation/entries', answers, fixed);
      return doorReply(reply, entries.length);
    },
  };
}

function doorReply(reply: Reply<Answer[]>, sent: number): DoorReply {
  if (reply.as === 'ok') return reply.value.length === sent ? { as: 'answered', answers: reply.value } : { as: 'unreachable' };
  if (reply.as === 'unreachable') return { as: 'unreachable' };
  const { status, problem, afterMs } = reply;
  if (status === 401) return { as: 'not-signed-on' };
  return status === 429 || status >= 500 ? { as: 'unreachable', afterMs } : { as: 'refused', problem };
}
