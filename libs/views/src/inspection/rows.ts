import type { Certainty } from '@bakehouse/kernel';
import type { CollectionName, Row } from '@bakehouse/records';

/** Days as a site counts them, both ends included, and the instants at which they begin and end. */
export interface Period {
  readonly from: string;
  readonly until: string;
  readonly begins: string;
  readonly ends: string;
}

/** A row with the entry that last wrote it: who and when stand there. */
export type RecordedRow<C extends CollectionName> = Row<C> & { readonly entry: string };

/** The collections that the page of a site and a period is made from. */
export type PeriodCollection =
  | 'person'
  | 'place'
  | 'instrument'
  | 'party'
  | 'planVersion'
  | 'make'
  | 'run'
  | 'stage'
  | 'load'
  | 'loadLine'
  | 'loadStep'
  | 'batch'
  | 'release'
  | 'reading'
  | 'readingNotTaken'
  | 'deviation'
  | 'correctiveAction'
  | 'disposition'
  | 'deviationClosed'
  | 'cleanDown'
  | 'instrumentCheck'
  | 'delivery'
  | 'lot'
  | 'receiptDecision'
  | 'lotIdentified'
  | 'hold'
  | 'placeHold'
  | 'placeHoldEnded'
  | 'holdLifted'
  | 'recallCase'
  | 'recallDecision'
  | 'refusalEnded'
  | 'departure'
  | 'returned';
export type PeriodRows = { readonly [C in PeriodCollection]: readonly RecordedRow<C>[] };

/** Those of them that one deviation is told from. */
export type DeviationRows = Pick<
  PeriodRows,
  'person' | 'place' | 'instrument' | 'deviation' | 'correctiveAction' | 'disposition' | 'deviationClosed' | 'reading'
>;

/** What the entry behind a row says beside the row itself. It stays when the body is withheld. */
export interface EntryFacts {
  readonly id: string;
  /** The site that it was recorded at. */
  readonly book: string;
  readonly kind: string;
  readonly recordedAt: string;
  readonly person: string;
  readonly precision: Certainty;
  readonly until: string | null;
  readonly signedBy: string | null;
  readonly signedAt: string | null;
  readonly meaning: string | null;
  readonly words: Readonly<Record<string, string>>;
}

/** A make that began before the period and was gone on with in it. */
export type BegunBefore = Pick<Row<'make'>, 'id' | 'formulaName' | 'at'>;

/** One version of a record that was corrected or withdrawn. */
export interface VersionRow {
  readonly root: string;
  readonly entry: string;
  readonly kind: string;
  readonly recordedAt: string;
  readonly reason: string | null;
  /** What was recorded, as the newest version of its kind says it; null where it is withheld. */
  readonly input: { readonly at: string; readonly doneBy: string | null; readonly payload: unknown } | null;
  readonly person: string;
}
