import { lastShown } from '@bakehouse/kernel';
import { partiesAt, type Row, type Snapshot } from '@bakehouse/records';

/** Where a stall stands, and until when, as it is typed. */
export interface StallSaid {
  readonly place: string;
  readonly until: string;
}

/** The shops of the house that goods go to still, each once. */
export function shopsOf(snapshot: Snapshot, now: string): Row<'party'>[] {
  return partiesAt(snapshot, now).filter((p) => p.type === 'own-shop');
}

/** Whom a way out goes to where nobody has to be asked: the only shop of the house. */
export function onlyOf(channel: Row<'departure'>['channel'], snapshot: Snapshot, now: string): string | null {
  const [shop, ...more] = channel === 'own-shop' ? shopsOf(snapshot, now) : [];
  return shop === undefined || more.length > 0 ? null : shop.party;
}

/** When a stall ends: the next time that the clock on the wall shows this; null where nobody said. */
export function untilOf(time: string, zone: string, now: string): string | null {
  const minute = Math.floor(Date.parse(now) / 60_000) * 60_000;
  const tomorrow = new Date(minute + 86_400_000).toISOString();
  return lastShown(time, zone, tomorrow) ?? null;
}
