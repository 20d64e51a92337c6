import { latest } from '@bakehouse/kernel';
import { channel, type Row } from '@bakehouse/records';
import type { Lookup } from '@bakehouse/views';

const returning = channel.extract(['round', 'dispatch', 'stall', 'own-shop', 'donation']);

/** A customer that something went to; or the way that it went, where nobody was named. */
export interface HadIt {
  readonly key: string;
  readonly customer: string | null;
  readonly channel: Row<'departure'>['channel'];
  /** Null where nobody was named. */
  readonly name: string | null;
  readonly is: (d: Row<'departure'>) => boolean;
}

/** Everybody who may bring something back, by what this tablet holds: names first, then the ways out. */
export function whoHadIt({ snapshot, state, at }: Lookup): HadIt[] {
  const sent = snapshot.departure.filter((d) => d.at <= at && d.decided === null && returning.safeParse(d.channel).success);
  const keyed = new Map(sent.map((d) => [d.customer ?? d.channel, d]));
  const nameOf = (party: string): string =>
    latest(state.find('party', 'party', party).map((p) => ({ ...p, at: p.since })))?.name ?? 'no name';
  return [...keyed]
    .map(([key, { customer, channel: way }]) => ({
      ...{ key, customer, channel: way, name: customer === null ? null : nameOf(customer) },
      is: (d: Row<'departure'>) => returning.safeParse(d.channel).success && (d.customer ?? d.channel) === key,
    }))
    .sort((a, b) => (a.name === null ? 1 : b.name === null ? -1 : a.name.localeCompare(b.name)));
}
