import { derivedId } from '@bakehouse/kernel';

/** The row that says that a content is open at a station because an earlier one of its vessel was. */
export const carriedId = (root: string, station: string): string => derivedId(root, `open at ${station}`);

/** The row that says that the old content is not open at a station any more. */
export const goneId = (root: string, station: string): string => derivedId(root, `no longer at ${station}`);

/** The row that says when a content that is told late was over, by the content that came next or by none. */
export const overId = (lot: string, station: string, next: string | null): string =>
  derivedId(lot, `over at ${station}, ${next ?? 'cleaned'}`);
