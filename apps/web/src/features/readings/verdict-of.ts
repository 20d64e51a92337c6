import type { TrendReading } from '@bakehouse/contracts';
import { readingDoubt } from '../../shared/reading-doubt';
import { judgedValue, verdictText } from '../../ui/verdict-text';

/** The verdict of a reading in words, or why it has to be confirmed. */
export const verdictOf = (r: TrendReading, zone: string): string =>
  readingDoubt(r.doubt, zone) ?? verdictText(r.verdict, judgedValue(r.figure, r.unit, r.limit));
