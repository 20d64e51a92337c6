import type { TakenBack } from '@bakehouse/records';

/** What a deviation says of its record beside its own words; null where the record still tells of it. Screens and papers say it in these words. */
export function takenBackText(of: Pick<TakenBack, 'as' | 'says'> | null): string | null {
  if (of === null) return null;
  if (of.as === 'allowed') return 'By what is on record now it could leave or be used then: what said so arrived later';
  return `The record it came from was ${of.as}${of.says === null ? '' : `: ${of.says}`}`;
}
