import type { Row, Snapshot } from '@bakehouse/records';
import { shopsOf } from './stall-and-shop';

type Party = Row<'party'>['type'];
export interface ChannelChoice {
  readonly channel: Exclude<Row<'departure'>['channel'], 'counter' | 'supplier-return'>;
  readonly title: string;
  readonly detail: string;
  /** Whose names are asked for; none where nobody in particular has it. */
  readonly parties: readonly Party[];
}

/** Where goods go, in the order in which a morning asks for it. The counter has a page of its own. */
export const channels: readonly ChannelChoice[] = [
  { channel: 'round', title: 'The round', detail: 'drop by drop, by van', parties: ['customer', 'own-shop', 'donation'] },
  { channel: 'dispatch', title: 'One customer', detail: 'fetched or sent', parties: ['customer'] },
  { channel: 'stall', title: 'The stall', detail: 'goes out, sells, comes back', parties: [] },
  { channel: 'own-shop', title: 'Our other shop', detail: 'to be sold there', parties: ['own-shop'] },
  { channel: 'donation', title: 'Given away', detail: 'food bank and the like', parties: ['donation'] },
  { channel: 'eaten-in', title: 'Eaten in', detail: 'at our tables', parties: [] },
  { channel: 'staff', title: 'Eaten by us', detail: 'staff', parties: [] },
  { channel: 'sample', title: 'Sample', detail: 'tasted, retained, to a laboratory', parties: [] },
  { channel: 'feed', title: 'Animal feed', detail: 'as the rules for feed allow', parties: ['feed'] },
  { channel: 'waste', title: 'Thrown away', detail: 'waste', parties: [] },
];

/** The one shop of the house has its name here; where there are more, or none, it is said in general. */
export function titleOf({ channel, title }: ChannelChoice, snapshot: Snapshot, now: string): string {
  const [shop, ...more] = channel === 'own-shop' ? shopsOf(snapshot, now) : [];
  return shop === undefined || more.length > 0 ? title : (shop.name ?? title);
}
