import * as z from 'zod';

/** How many entries this device ever saved, how many it let go of, and its last sequence number: written in the same transaction as they are. */
export const counts = z.object({ lastSeq: z.int(), saved: z.int().nonnegative(), letGo: z.int().nonnegative() });
export type Counts = z.infer<typeof counts>;
const none: Counts = { lastSeq: -1, saved: 0, letGo: 0 };

/** Under these names they are kept; what could not be read as counts is moved aside, never overwritten. */
export const countsKey = 'counts';
export const spoiltCountsKey = 'counts, spoilt';

/** The counts to go on from: those stored, or what the records themselves say where these cannot be read. */
export function countsFrom(stored: unknown, there: number, lastKey: number): { readonly counts: Counts; readonly spoilt: boolean } {
  const { data } = counts.safeParse(stored);
  const lastSeq = Math.max(data?.lastSeq ?? -1, lastKey);
  if (data) return { counts: { ...data, lastSeq }, spoilt: false };
  return stored === undefined
    ? { counts: { ...none, lastSeq }, spoilt: false }
    : { counts: { lastSeq, saved: there, letGo: 0 }, spoilt: true };
}

/** Something about the store that a person must be told: what it holds is not what was put in. */
export interface Damage {
  readonly what: 'does-not-add-up' | 'record-unreadable' | 'counts-unreadable';
  /** How many records are concerned. */
  readonly records: number;
  /** The raw content, for somebody who can interpret it. */
  readonly raw: readonly unknown[];
}

/** What does not fit between the counts and the records that are there; nothing where all is well. */
export function damageOf(stored: unknown, spoilt: unknown, there: number, unreadable: readonly unknown[]): Damage[] {
  const {
    counts: { saved, letGo },
    spoilt: now,
  } = countsFrom(stored, there, -1);
  const missing = Math.abs(saved - letGo - there);
  const bad = [...(now ? [stored] : []), ...(spoilt === undefined ? [] : [spoilt])];
  return [
    ...(bad.length === 0 ? [] : [{ what: 'counts-unreadable' as const, records: there, raw: bad }]),
    ...(missing === 0 ? [] : [{ what: 'does-not-add-up' as const, records: missing, raw: [] }]),
    ...(unreadable.length === 0 ? [] : [{ what: 'record-unreadable' as const, records: unreadable.length, raw: unreadable }]),
  ];
}
