import type { Ask } from '@bakehouse/api-client';
import * as z from 'zod';
import { troubleOf } from '../../shared/trouble-of';

/** Gives somebody a PIN; undefined where it was taken, else what stood against it. */
export async function setPin(
  ask: Ask,
  person: string,
  pin: string,
): Promise<{ readonly title: string; readonly detail: string } | undefined> {
  const reply = await ask('post', '/people/{person}/pin', z.null(), { params: { path: { person } }, body: { pin } });
  if (reply.as === 'ok') return undefined;
  return troubleOf(reply, 'The PIN was not set. Try again when the network is back.');
}
