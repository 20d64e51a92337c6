import { envelope, happened, type Certainty, type Envelope, type Stamp } from '@bakehouse/kernel';
import type { Columns, Holds, TableRow } from '../database/index.js';
import * as z from 'zod';
import type { Content } from './content.js';

type Entry = TableRow<'entry'>;

/** What of an entry stands in columns beside its bytes, so that no query has to read them. It outlives the body. */
export interface Beside extends Columns<Pick<Entry, 'person' | 'until' | 'signedBy' | 'signedAt' | 'signedAs'>> {
  readonly precision: Holds<Entry['precision'], Certainty>;
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

const told = z.object({ occurredAt: envelope.shape.occurredAt, device: envelope.shape.device });

export function beside(input: Pick<Envelope, 'occurredAt' | 'device'>, { person, signature, recordedAt }: Stamp): Beside {
  const { precision, until } = happened(input, recordedAt);
  return {
    person,
    precision,
    until,
    signed_by: signature?.person ?? null,
    signed_at: signature ? utc(signature.at) : null,
    signed_as: signature?.meaning ?? null,
  };
}

/** The same from stored bytes; undefined where they do not say when it happened. */
export function besideOf(content: Content): Beside | undefined {
  const read = told.safeParse(content.input);
  return read.success ? beside(read.data, content.stamp) : undefined;
}

export const sameBeside = (a: Beside | undefined, b: Beside): boolean => a !== undefined && besideColumns.every((c) => a[c] === b[c]);
