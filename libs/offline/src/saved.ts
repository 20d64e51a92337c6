import type { Refused } from '@bakehouse/kernel';
import type { KindName, OutcomeOf } from '@bakehouse/records';

/** An entry that this device keeps now, with what comes of it by what the device knows. */
export interface Saved<K extends KindName = KindName> {
  readonly ok: true;
  readonly id: string;
  readonly outcome: OutcomeOf<K>;
}
export type Recorded<K extends KindName = KindName> = Saved<K> | Refused;
