import { uuidv7 } from '../../apps/api/dist/platform/ids/index.js';
import { roomReading } from '../support/payloads.js';

let made = 0;

/** A UUIDv7 of now. */
export const newId = (): string => uuidv7(new Date(Date.now()));

/** A room's temperature, as a tablet sends it. */
export function readingEntry(site: string): Record<string, unknown> {
  made += 1;
  return {
    id: newId(),
    kind: 'reading-taken',
    version: 1,
    occurredAt: { at: new Date(Date.now()).toISOString(), precision: 'exact' },
    doneBy: null,
    device: { id: null, seq: made, clockErrorMs: 12 },
    payload: roomReading(site, `${made % 60}.${made % 10}`),
  };
}
