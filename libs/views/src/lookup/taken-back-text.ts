import type { TakenBack } from '@bakehouse/records';

/** What a deviation says of its record beside its own words; null where the record still tells of it. Screens and papers say it in these words. */
export const takenBackText = (of: Pick<TakenBack, 'as' | 'says'> | null): string | null =>
  of === null ? null : `The record it came from was ${of.as}${of.says === null ? '' : `: ${of.says}`}`;
