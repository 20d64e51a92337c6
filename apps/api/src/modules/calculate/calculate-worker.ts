import { readJson, type Problem } from '@bakehouse/kernel';
import { calculationsAsOfYear } from '@bakehouse/standards';
import { byName } from './all.js';

/** What the thread is given: the body as it came, so that to read it keeps nobody waiting either. */
export interface Request {
  readonly name: string;
  readonly body: Uint8Array;
  readonly year: number;
}

/** The answer as JSON in UTF-8, or why there is none. */
export type Answer = { readonly json: Uint8Array } | { readonly problem: Problem };

export function calculate({ name, body, year }: Request): Answer {
  const read = readJson(Buffer.from(body.buffer, body.byteOffset, body.byteLength).toString('utf8'));
  if (!read.ok) return { problem: read };
  const calculation = byName.get(name);
  if (!calculation)
    return { problem: { problem: 'unknown-calculation', field: 'name', acceptable: `one of: ${[...byName.keys()].join(', ')}` } };
  const answer = calculation.calculate(withYear(name, read.value, year));
  return answer.ok ? { json: new TextEncoder().encode(JSON.stringify(answer.value)) } : { problem: answer };
}

/** Dates of two-digit years are read as of a year: this one, where the caller names none. */
function withYear(name: string, body: unknown, year: number): unknown {
  const asks = calculationsAsOfYear.has(name) && typeof body === 'object' && body !== null && !Array.isArray(body) && !('asOfYear' in body);
  return asks ? { ...body, asOfYear: year } : body;
}
