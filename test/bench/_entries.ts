import { randomBytes } from 'node:crypto';

let made = 0;

/** A UUIDv7 of now. */
export function newId(): string {
  const hex = Date.now().toString(16).padStart(12, '0') + randomBytes(10).toString('hex');
  return `${hex.slice(0, 8)}-${hex.slice(8, 12)}-7${hex.slice(13, 16)}-8${hex.slice(17, 20)}-${hex.slice(20, 32)}`;
}

/** A room's temperature, as a tablet sends it. */
export function readingEntry(site: string): object {
  made += 1;
  return {
    id: newId(), kind: 'reading-taken', version: 1, occurredAt: { at: new Date(Date.now()).toISOString(), precision: 'exact' }, doneBy: null, device: { id: null, seq: made, clockErrorMs: 12 },
    payload: { subjectSort: 'site', subject: site, point: null, measured: 'air', parameter: 'room', instrument: null, value: { figure: `${made % 60}.${made % 10}`, unit: 'degC' }, yes: null, seconds: null },
  };
}
