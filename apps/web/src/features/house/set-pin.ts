import * as z from 'zod';
import type { AskAs } from '../../shared/who';
import { troubleOf } from '../../shared/trouble-of';

/** Gives somebody a PIN; undefined where it was taken, else what stood against it. */
export async function setPin(
  ask: AskAs,
  person: string,
  pin: string,
): Promise<{ readonly title: string; readonly detail: string } | undefined> {
  const reply = await ask(`/people/${person}/pin`, z.null(), { method: 'POST', body: { pin } });
  if (reply.as === 'ok') return undefined;
  return troubleOf(reply, 'The PIN was not set. Try again when the network is back.');
}
