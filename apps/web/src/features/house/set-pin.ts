import * as z from 'zod';
import type { AskAs } from '../../shared/who';

/** Gives somebody a PIN; undefined where it was taken, else what stood against it. */
export async function setPin(
  ask: AskAs,
  person: string,
  pin: string,
): Promise<{ readonly title: string; readonly detail: string } | undefined> {
  const reply = await ask(`/people/${person}/pin`, z.null(), { method: 'POST', body: { pin } });
  if (reply.as === 'ok') return undefined;
  return reply.as === 'problem'
    ? reply.problem
    : { title: 'The bakehouse’s computer cannot be reached', detail: 'The PIN was not set. Try again when the network is back.' };
}
