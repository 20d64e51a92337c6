import type { TraceView } from '@bakehouse/contracts';
import type { LotAccountRows } from '@bakehouse/graph';
import type { Hazard, Moved, Row } from '@bakehouse/records';

export interface TraceQuestion {
  readonly suspects: readonly string[];
  readonly direction: 'forward' | 'backward';
  readonly hazard: Hazard | null;
  readonly actionLevelPpt: bigint | null;
}
interface OfLot {
  readonly lot: string;
}

/** Where so much of a lot went, with the customer as known now. */
export type DepartureRow = Omit<TraceView['ends'][number], 'lots' | 'stays' | 'missing'> &
  OfLot &
  LotAccountRows['departures'][number] & {
    readonly id: string;
    readonly contactName: string | null;
    readonly phone: string | null;
    readonly customerType: string | null;
    readonly vulnerable: boolean;
    readonly book: string;
    /** When it may have left at the earliest, where that is not its instant. */
    readonly earliest: string | null;
  };
/** What came back, with the way that it had gone. */
export type ReturnedRow = OfLot &
  LotAccountRows['returned'][number] &
  Pick<Row<'returned'>, 'id' | 'site' | 'how'> & { readonly channel: string | null; readonly customerType: string | null };
export type CounterRow = Pick<Row<'onCounter'>, 'id' | 'lot' | 'way' | 'pieces' | 'site' | 'at' | 'earliest'> & { readonly book: string };
export type HeatRow = TraceView['heat']['steps'][number];

/** Where lots went and what is known to be left of them. */
export interface Ends {
  readonly departures: readonly DepartureRow[];
  readonly returned: readonly ReturnedRow[];
  /** Counts, and what makes weighed when they came to their end, at no site. */
  readonly counts: readonly (OfLot & Pick<Row<'counted'>, 'id' | 'place' | 'mg' | 'pieces' | 'at'> & { readonly site: string | null })[];
  readonly counter: readonly CounterRow[];
  readonly carried: readonly (OfLot & Pick<Row<'moved'>, 'toPlace' | 'mg' | 'pieces' | 'at'>)[];
  readonly uses: readonly (OfLot & LotAccountRows['uses'][number])[];
}
/** With what went into makes and into contents of vessels, each amount once. */
export interface EndsWithInto extends Ends {
  readonly into: readonly (OfLot & Moved)[];
}
