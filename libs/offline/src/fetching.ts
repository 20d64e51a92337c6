/** Rows that are fetched twice a minute are old once this is past. */
const oldMs = 60_000;

/** What a device asks for and has no answer to yet. */
export class Fetching {
  private running = 0;
  private everAnswered = false;

  /** Gives what ends it. */
  begin(): () => void {
    this.running += 1;
    return () => {
      this.running -= 1;
    };
  }

  answered(): void {
    this.everAnswered = true;
  }

  /** Whether what is on record may be more than the rows of `asOf` show: they are old, or from before the device was opened, and newer ones are on their way. */
  isLoading(asOf: string | null, now: Date): boolean {
    return this.running > 0 && (!this.everAnswered || asOf === null || now.getTime() - Date.parse(asOf) > oldMs);
  }
}

/** The error of this clock, from when it asked until it was answered. One measured before that fits stands: a slow network is no change of a clock. */
export function measuredError(known: number | null, asked: Date, answered: Date, asOf: string): number {
  const [least, most] = [asked.getTime() - Date.parse(asOf), answered.getTime() - Date.parse(asOf)];
  return known !== null && known >= least && known <= most ? known : Math.round((least + most) / 2);
}
