import { randomBytes } from 'node:crypto';
import { kindOf } from '@bakehouse/records';
import { uuidv7 } from '../../apps/api/src/platform/ids/index.js';

let deviceSeq = 0;

/** A fresh UUIDv7, as a device makes them. */
export const newId = (at = new Date('2026-11-25T06:00:00Z')): string => uuidv7(at);

export interface EntryOptions {
  id?: string;
  at?: string;
  doneBy?: string | null;
  after?: string[];
  corrects?: string;
  words?: Record<string, string>;
  version?: number;
  signature?: string;
  precision?: 'exact' | 'about';
}

/** An entry as a device would send it, with everything but what the test is about filled in. */
export function entry(kind: string, payload: unknown, o: EntryOptions = {}) {
  deviceSeq += 1;
  const words =
    o.words && Object.fromEntries(Object.entries(o.words).map(([key, text]) => [key, { text, salt: randomBytes(16).toString('hex') }]));
  return {
    id: o.id ?? newId(),
    kind,
    version: o.version ?? kindOf({ kind })?.version ?? 1,
    ...(o.after ? { after: o.after } : {}),
    occurredAt: { at: o.at ?? '2026-11-25T05:00:00.000+00:00', precision: o.precision ?? ('exact' as const) },
    doneBy: o.doneBy ?? null,
    device: { id: null, seq: deviceSeq, clockErrorMs: 0 },
    ...(o.corrects ? { corrects: o.corrects } : {}),
    ...(words ? { words } : {}),
    payload,
    ...(o.signature ? { send: { signature: o.signature } } : {}),
  };
}
