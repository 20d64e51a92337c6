import type { Ask } from '@bakehouse/api-client';
import * as z from 'zod';
import { troubleOf, type Trouble } from './trouble-of';

/** Gives somebody a PIN; undefined where it was taken, else what stood against it. `currentPin` is that of the person who gives it. */
export async function setPin(ask: Ask, person: string, pin: string, currentPin: string): Promise<Trouble | undefined> {
  const reply = await ask('post', '/people/{person}/pin', z.null(), { params: { path: { person } }, body: { pin, currentPin } });
  if (reply.as === 'ok') return undefined;
  return troubleOf(reply, 'The PIN was not set. Try again when the network is back.');
}
