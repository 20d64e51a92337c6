import { createHash } from 'node:crypto';
import type { Envelope, Stamp } from '@bakehouse/domain';
import { canonicalBytes, commitment } from '@bakehouse/ledger';

/** Goes up when the form of the hashed bytes changes; golden files hold each form. */
export const contentFormat = 1;

/** The hashed bytes of one entry, taken apart. */
export interface Content { readonly format: number; readonly input: Record<string, unknown>; readonly outcome: unknown; readonly stamp: Stamp }

export const sha256 = (...parts: readonly Uint8Array[]): Buffer => {
  const hash = createHash('sha256');
  for (const part of parts) hash.update(part);
  return hash.digest();
};

/** A NUL, which PostgreSQL's text cannot hold, or half a surrogate pair, which is no character at all. */
const unstorable = /\u0000|\p{Surrogate}/u;

/**
 * What is hashed of an envelope: all that was fixed when it was saved, each word as its commitment, nothing of this one sending.
 * Undefined where some text in it cannot be stored as it is.
 */
export function inputOf(envelope: Envelope): { content: Record<string, unknown>; hash: Buffer } | undefined {
  if (!storable(envelope)) return undefined;
  const { words, send: _send, ...fixed } = envelope;
  const committed = words && Object.fromEntries(Object.entries(words).map(([key, w]) => [key, commitment(w.salt, w.text)]));
  const content = committed ? { ...fixed, words: committed } : fixed;
  return { content, hash: inputHashOf(content) };
}

export const inputHashOf = (content: Record<string, unknown>): Buffer => sha256(canonicalBytes(content));

/** The bytes that are stored and hashed. */
export function contentBytes(input: Record<string, unknown>, outcome: unknown, stamp: Stamp): Uint8Array {
  return canonicalBytes({ format: contentFormat, input, outcome, stamp });
}

function storable(value: unknown): boolean {
  if (typeof value === 'string') return !unstorable.test(value);
  if (typeof value !== 'object' || value === null) return true;
  return Object.entries(value).every(([key, inner]) => storable(key) && storable(inner));
}
