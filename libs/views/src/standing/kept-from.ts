import type { LotTrouble } from '@bakehouse/records';
import type { BatchRelease } from './batch-standing.js';

interface Stands {
  readonly trouble: LotTrouble | null;
  readonly release: BatchRelease['state'];
}

/** Why a lot stays where it is whatever it is asked for; null where nothing keeps it. */
export function keptFrom({ trouble, release }: Stands): 'on-hold' | 'past-date' | null {
  if (trouble === 'expired-lot-used' || trouble === 'past-life-used') return 'past-date';
  return trouble !== null || release === 'on-hold' ? 'on-hold' : null;
}
