import { inOrder } from '@bakehouse/kernel';
import { countersOf, decidedPart, leftByPlace, movementsOf, placeOf, type DecidedPart, type Finding, type Row } from '@bakehouse/records';
import type { Lookup } from '../lookup/lookup.js';
import { batchView } from './batches.js';

/** A released batch that something speaks against since, with how much of it is at the site whose screen this is. */
export interface FoundSince {
  readonly id: string;
  readonly name: string;
  readonly code: string;
  /** Each with what was decided about some of the batch already. */
  readonly findings: readonly (Finding & { readonly part: DecidedPart | null })[];
  /** At this site, by the records; null where nobody can say. Where no site is asked about, in the bakehouse that made it. */
  readonly here: number | null;
  /** Some of it stands on this site's counter, or was sent here as to a shop: customers can take it. */
  readonly onSale: boolean;
  /** It was made here, and not all that was made is here still. */
  readonly mayHaveLeft: boolean;
}

/** Released batches, of whichever day, that something speaks against since, and what of them is here. */
export function foundSinceRelease(lookup: Lookup): FoundSince[] {
  return inOrder(lookup.snapshot.batch).flatMap((batch) => {
    const { id, name, code, release } = batchView(lookup, batch);
    if (release.state !== 'released' || release.since.length === 0) return [];
    return [{ id, name, code, findings: release.since.map((f) => ({ ...f, part: partOf(lookup, id, f) })), ...hereOf(lookup, batch) }];
  });
}

const partOf = ({ state }: Lookup, batch: string, { code, concern }: Finding): DecidedPart | null =>
  concern === null ? null : decidedPart(state, batch, { type: code, id: concern });

function hereOf({ state, at, site }: Lookup, { id, pieces }: Row<'batch'>): Pick<FoundSince, 'here' | 'onSale' | 'mayHaveLeft'> {
  const left = leftByPlace(pieces, movementsOf(state, id, at, { oneOfSeveral: 'left-out' }), 'pieces');
  const place = site === null ? 'bakehouse' : placeOf(state, id, site);
  const here = left[place];
  const counters = countersOf(state, id, at, left).filter((c) => c.site === site && c.pieces !== 0);
  return {
    here,
    onSale: counters.length > 0 || (place === 'shop' && here !== 0),
    mayHaveLeft: place === 'bakehouse' && (here === null || here < pieces),
  };
}
