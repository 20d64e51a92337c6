/** So long after what is on record at a lot it is left alone, and it is worth noting that it is clear. */
const restMs = 36 * 3_600_000;
/** So many lots that were followed although they rest are worth a commit of their own, so that nobody follows them again. */
const worthSettling = 40;

/** Where look-ups upstream may end: at lots that are clear from an instant on, and what they still had to follow that might have been clear. */
export class ClearCut {
  readonly walked = new Set<string>();

  /** What was last recorded about before this instant rests. */
  readonly restBefore: string;

  /** @param at the earliest instant that is asked about; `infinity` where only the present is. */
  constructor(
    readonly at: string,
    now: Date,
  ) {
    this.restBefore = new Date(now.getTime() - restMs).toISOString();
  }

  /** Notes a lot that was followed, with the instant of what flowed into it. */
  note(lot: string, at: unknown): void {
    if (typeof at === 'string' && at < this.restBefore) this.walked.add(lot);
  }

  get isWorthSettling(): boolean {
    return this.walked.size >= worthSettling;
  }
}
