import { newEnvelope, type SentEnvelope } from '@bakehouse/kernel';
import { salt, uuidv7 } from '../../apps/api/dist/platform/ids/index.js';
import { roomReading } from '../support/payloads.js';

let made = 0;

/** A UUIDv7 of now. */
export const newId = (): string => uuidv7(new Date(Date.now()));

/** A room's temperature, as a tablet sends it. */
export function readingEntry(site: string): SentEnvelope {
  made += 1;
  return newEnvelope(
    {
      id: newId(),
      kind: 'reading-taken',
      version: 1,
      payload: roomReading(site, `${made % 60}.${made % 10}`),
      at: new Date(Date.now()).toISOString(),
      doneBy: null,
      device: { id: null, seq: made, clockErrorMs: 12 },
    },
    salt,
  );
}
