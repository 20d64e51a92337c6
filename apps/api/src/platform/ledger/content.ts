import { hash } from 'node:crypto';
import type { Envelope, Stamp } from '@bakehouse/kernel';
import { canonicalBytes, commitment } from '@bakehouse/ledger';

/** Goes up when the form of the hashed bytes changes; golden files hold each form. */
export const contentFormat = 1;

/** The hashed bytes of one entry, taken apart. */
export interface Content {
  readonly format: number;
  readonly input: Record<string, unknown>;
  readonly outcome: unknown;
  readonly outcomeVersion: number;
  readonly stamp: Stamp;
}

/** In one call of the platform: for what is as short as an entry, to make and to read a hash object takes longer than the hash. */
export const sha256 = (...parts: readonly Uint8Array[]): Buffer => {
  const [first] = parts;
  return hash('sha256', first !== undefined && parts.length === 1 ? first : Buffer.concat(parts), 'buffer');
};

/** The canonical form of what is hashed of an entry, and its hash. */
export interface HashedInput {
  readonly bytes: Uint8Array;
  readonly hash: Buffer;
}

/** A NUL, which PostgreSQL's text cannot hold, or half a surrogate pair, which is no character at all. */
const unstorable = /\u0000|\p{Surrogate}/u;

/**
 * What is hashed of an envelope: all that was fixed when it was saved, each word as its commitment, nothing of this one sending.
 * Undefined where some text in it cannot be stored as it is.
 */
export function inputOf(envelope: Envelope): HashedInput | undefined {
  if (!storable(envelope)) return undefined;
  const { words, send: _send, ...fixed } = envelope;
  const committed = words && Object.fromEntries(Object.entries(words).map(([key, w]) => [key, commitment(w.salt, w.text)]));
  const content = committed ? { ...fixed, words: committed } : fixed;
  const bytes = canonicalBytes(content);
  return { bytes, hash: sha256(bytes) };
}

export const inputHashOf = (content: Record<string, unknown>): Buffer => sha256(canonicalBytes(content));

const part = (text: string): Uint8Array => new TextEncoder().encode(text);
const [open, beforeOutcome, beforeVersion, beforeStamp, close] = [
  `{"format":${contentFormat},"input":`,
  ',"outcome":',
  ',"outcomeVersion":',
  ',"stamp":',
  '}',
].map(part);

/**
 * The bytes that are stored and hashed: the canonical form of { format, input, outcome, outcomeVersion, stamp }. Put together from canonical
 * parts, since the five names are in canonical order already and the input was made canonical before.
 */
export function contentBytes(input: HashedInput, outcome: unknown, outcomeVersion: number, stamp: Stamp): Uint8Array {
  return Buffer.concat(
    [
      ...[open, input.bytes, beforeOutcome, canonicalBytes(outcome), beforeVersion, canonicalBytes(outcomeVersion)],
      ...[beforeStamp, canonicalBytes(stamp), close],
    ].map((b) => b ?? new Uint8Array()),
  );
}

function storable(value: unknown): boolean {
  if (typeof value === 'string') return !unstorable.test(value);
  if (typeof value !== 'object' || value === null) return true;
  return Object.entries(value).every(([key, inner]) => storable(key) && storable(inner));
}
