import * as z from 'zod';
import { readingTaken } from './control/reading-taken.js';
import { entryWithdrawn } from './kernel/entry-withdrawn.js';
import type { AnyKind } from './kernel/kind.js';
import { makeBegun } from './makes/make-begun.js';
import { weighedIn } from './makes/weighed-in.js';
import { deliveryReceived } from './stock/delivery-received.js';

/** The one list of kinds. Server, tablet, OpenAPI, phrases and tests all read it. */
export const kinds: readonly AnyKind[] = [
  entryWithdrawn,
  deliveryReceived,
  makeBegun, weighedIn,
  readingTaken,
];

const byName = new Map(kinds.map((k) => [k.name, k]));
const named = z.looseObject({ kind: z.string() });

/** The kind that something sent says it is, if it is one. */
export function kindOf(raw: unknown): AnyKind | undefined {
  const parsed = named.safeParse(raw);
  return parsed.success ? byName.get(parsed.data.kind) : undefined;
}
