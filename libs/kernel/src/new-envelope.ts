import type * as z from 'zod';
import type { envelope, Envelope, Precision } from './entry.js';

/** An entry as it leaves a device, before its schema has read it. */
export type SentEnvelope = z.input<typeof envelope>;

/** What is known about an entry before it is fixed; every field that is not there is left out of the envelope. */
export interface EnvelopeParts {
  readonly id: string;
  readonly kind: string;
  readonly version: number;
  readonly payload: unknown;
  /** The instant with the offset of the clock on the wall. */
  readonly at: string;
  readonly precision?: Precision | undefined;
  readonly until?: string | undefined;
  readonly clock?: Envelope['occurredAt']['clock'];
  readonly doneBy: string | null;
  readonly device: SentEnvelope['device'];
  readonly after?: readonly string[] | undefined;
  readonly corrects?: string | undefined;
  /** Free texts; each gets a salt of its own, and one that is blank is left out. */
  readonly words?: Readonly<Record<string, string>> | undefined;
  readonly signature?: string | undefined;
}

/** The one builder of envelopes: tablet, demo, service and tests. `salt` gives 16 random bytes in hex, fresh each time. */
export function newEnvelope(parts: EnvelopeParts, salt: () => string): SentEnvelope {
  const {
    id,
    kind,
    version,
    payload,
    at,
    precision = 'exact',
    until,
    clock,
    doneBy,
    device,
    after = [],
    corrects,
    words = {},
    signature,
  } = parts;
  const salted = Object.entries(words).flatMap(([key, text]) => (text.trim() === '' ? [] : [[key, { text: text.trim(), salt: salt() }]]));
  return {
    id,
    kind,
    version,
    ...(after.length > 0 ? { after: [...after] } : {}),
    occurredAt: { at, precision, ...(until === undefined ? {} : { until }), ...(clock === undefined ? {} : { clock }) },
    doneBy,
    device,
    ...(corrects === undefined ? {} : { corrects }),
    ...(salted.length > 0 ? { words: Object.fromEntries(salted) } : {}),
    payload,
    ...(signature === undefined ? {} : { send: { signature } }),
  };
}
