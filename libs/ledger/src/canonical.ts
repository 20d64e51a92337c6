import canonicalize from 'canonicalize';
import { sameBytes, utf8 } from './bytes.js';

const maxDepth = 100;

/**
 * The one byte form of a JSON value: RFC 8785 in UTF-8. Throws where the RFC demands it (NaN, infinities, half a surrogate pair) and on whatever
 * JSON cannot say (undefined, functions, bigints, objects of a class, holes in arrays, nesting beyond 100), which a serialiser would drop or change.
 */
export function canonicalBytes(value: unknown): Uint8Array {
  demandJson(value, 0);
  const text = canonicalize(value);
  if (text === undefined) throw new Error('not a JSON value');
  return utf8(text);
}

function demandJson(value: unknown, depth: number): void {
  if (depth > maxDepth) throw new Error(`a JSON value nested more than ${maxDepth} deep`);
  switch (typeof value) {
    case 'string':
    case 'number':
    case 'boolean':
      return;
    case 'object':
      break;
    default:
      throw new Error(`${typeof value} is not a JSON value`);
  }
  if (value === null) return;
  if (Array.isArray(value)) {
    for (const item of value) demandJson(item, depth + 1); // for…of also visits the holes, as undefined
    return;
  }
  if (!isPlain(value)) throw new Error('an object of a class is not a JSON value');
  for (const key in value) demandJson(value[key], depth + 1);
}

/** An object literal, or what JSON.parse or structuredClone gives, from any realm; `toJSON` would let a value choose another one to be hashed. */
function isPlain(value: object): value is Record<string, unknown> {
  const prototype: unknown = Object.getPrototypeOf(value);
  const literal = prototype === null || Object.getPrototypeOf(prototype) === null;
  return literal && !('toJSON' in value && typeof value.toJSON === 'function') && Object.getOwnPropertySymbols(value).length === 0;
}

// Both Node and browsers have it; declared here because this package is compiled without the types of either.
declare const TextDecoder: new (label: string, options: { fatal: boolean; ignoreBOM: boolean }) => { decode(bytes: Uint8Array): string };

/** The JSON value that UTF-8 bytes say, or undefined where they say none. */
export function jsonIn(bytes: Uint8Array): unknown {
  try {
    return JSON.parse(new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes));
  } catch {
    return undefined;
  }
}

/** Whether bytes are the canonical form of the JSON value that they say: what was hashed then has one reading and one spelling. */
export function isCanonical(bytes: Uint8Array): boolean {
  try {
    return sameBytes(canonicalBytes(jsonIn(bytes)), bytes);
  } catch {
    return false; // not UTF-8, not JSON, or a JSON value that has no canonical form
  }
}
