export interface Amount {
  readonly pieces: number | null;
  readonly mg: number | null;
}
/** How something leaves: it is shown on a counter, sold over one, or gone from where it stood, also to a shop of the house. */
export type LeavingWay = 'shown' | 'over-counter' | 'away';
/**
 * So much of a lot that leaves or is used, by an entry of this root and at this site; null where it is used, which is where it was made. `flows` are those of its own, which a
 * correction makes again.
 */
export interface LeavingNow extends Amount {
  readonly root: string;
  readonly site: string | null;
  readonly way: LeavingWay;
  readonly flows?: ReadonlySet<string>;
}
