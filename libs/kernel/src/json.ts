import { refuse, type Outcome } from './refusal.js';

/** Whether a text may hold a name that is looked for: written out, or in escapes. Almost none does, and only such a one is looked through. */
const mayHold = /__proto__|constructor|toString|valueOf|\\u/;

/** Names by which a value is turned into text, a number or another type of thing. Whatever compares or prints such a value would fail. */
const reserved = ['__proto__', 'toString', 'valueOf'] as const;

/** JSON from outside as a value; refused where it is none, or where something in it has a name that every object has for its own use. */
export function readJson(text: string): Outcome<unknown> {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    return refuse('malformed-json');
  }
  const found = mayHold.test(text) ? reservedIn(value) : undefined;
  return found === undefined ? { ok: true, value } : refuse('malformed', found, 'fields of other names');
}

/** The path to the first reserved name. A loop and not a recursion: what is nested a million times deep must not end it. */
function reservedIn(value: unknown): string | undefined {
  const left = [{ value, path: '' }];
  for (let at = left.pop(); at !== undefined; at = left.pop()) {
    const whole = at.value;
    if (typeof whole !== 'object' || whole === null) continue;
    const name = reserved.find((one) => Object.hasOwn(whole, one)) ?? (replacesPrototype(whole) ? 'constructor.prototype' : undefined);
    if (name !== undefined) return `${at.path}${name}`.slice(0, 200);
    for (const [step, inner] of Object.entries(whole)) left.push({ value: inner, path: `${at.path}${step}.`.slice(0, 200) });
  }
  return undefined;
}

function replacesPrototype(whole: object): boolean {
  if (!Object.hasOwn(whole, 'constructor')) return false;
  const own: unknown = whole.constructor;
  return typeof own === 'object' && own !== null && Object.hasOwn(own, 'prototype');
}
