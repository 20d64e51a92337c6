import { newEnvelope, type Precision, type SentEnvelope } from '@bakehouse/kernel';
import { kindOf, type KindName, type PayloadFor } from '@bakehouse/records';
import { salt, uuidv7 } from '../../apps/api/src/platform/ids/index.js';

let deviceSeq = 0;

/** A fresh UUIDv7, as a device makes them. */
export const newId = (at = new Date('2026-11-25T06:00:00Z')): string => uuidv7(at);

/** What a test says of an entry beside its kind and payload; what it leaves out is made up. */
export interface EntryOptions {
  readonly id?: string;
  readonly at?: string;
  readonly precision?: Precision;
  readonly until?: string;
  readonly clock?: 'device' | 'wall';
  readonly doneBy?: string | null;
  readonly after?: readonly string[];
  readonly corrects?: string;
  readonly words?: Readonly<Record<string, string>>;
  readonly version?: number;
  readonly signature?: string;
}
/** An entry of one kind, or of any, as a test writes it down. */
export interface EntryOf<K extends KindName> extends EntryOptions {
  readonly kind: K;
  readonly payload: PayloadFor<K>;
}
export type AnyEntry = { [K in KindName]: EntryOf<K> }[KindName];
/** One that the compiler does not hold to its kind. */
export interface RawEntry extends EntryOptions {
  readonly kind: string;
  readonly payload: unknown;
}

/** An entry as a device would send it, with everything but what the test is about filled in. */
export const entry = <K extends KindName>(kind: K, payload: PayloadFor<K>, options: EntryOptions = {}): SentEnvelope =>
  rawEntry(kind, payload, options);

/** The same where the payload is wrong on purpose, or the kind is only known when the test runs. */
export function rawEntry(kind: string, payload: unknown, options: EntryOptions = {}): SentEnvelope {
  deviceSeq += 1;
  const { id = newId(), at = '2026-11-25T05:00:00.000+00:00', doneBy = null, version = kindOf({ kind })?.version ?? 1, ...of } = options;
  return newEnvelope({ id, kind, version, payload, at, doneBy, device: { id: null, seq: deviceSeq, clockErrorMs: 0 }, ...of }, salt);
}
