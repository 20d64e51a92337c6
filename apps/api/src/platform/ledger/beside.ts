import { when, type Precision, type Stamp } from '@bakehouse/kernel';
import type { Content } from './content.js';

/** What of an entry stands in columns beside its bytes, so that no query has to read them. It outlives the body. */
export interface Beside {
  readonly person: string;
  readonly precision: Precision;
  readonly until: string | null;
  readonly signed_by: string | null;
  readonly signed_at: string | null;
  readonly signed_as: string | null;
}

export const besideColumns = [
  'person',
  'precision',
  'until',
  'signed_by',
  'signed_at',
  'signed_as',
] as const satisfies readonly (keyof Beside)[];

const utc = (instant: string): string => new Date(instant).toISOString();

export function beside(
  { precision, until }: { precision: Beside['precision']; until?: string | undefined },
  { person, signature }: Stamp,
): Beside {
  return {
    person,
    precision,
    until: until === undefined ? null : utc(until),
    signed_by: signature?.person ?? null,
    signed_at: signature ? utc(signature.at) : null,
    signed_as: signature?.meaning ?? null,
  };
}

/** The same from stored bytes; undefined where they do not say when it happened. */
export function besideOf(content: Content): Beside | undefined {
  const read = when.safeParse(content.input['occurredAt']);
  return read.success ? beside(read.data, content.stamp) : undefined;
}

export const sameBeside = (a: Beside | undefined, b: Beside): boolean => a !== undefined && besideColumns.every((c) => a[c] === b[c]);
