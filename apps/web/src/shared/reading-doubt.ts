import type { DoubtView } from '@bakehouse/contracts';
import { doubtText } from '@bakehouse/views';
import { dayTime } from './trace/words';

/** Why a reading cannot be trusted, in words and with the time on the site's wall; null where it can. */
export const readingDoubt = (doubt: DoubtView | null, zone: string): string | null =>
  doubt === null ? null : doubtText(doubt, dayTime(doubt.at, zone));
