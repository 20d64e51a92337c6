import { dayBounds, dayOfWeek, daysAfter, localDay } from '@bakehouse/kernel';

const minuteMs = 60_000;

/** One calendar day of the story. Its times run from four in the morning by elapsed minutes, so that an hour is an hour on the night the clocks change too. */
export class Day {
  private readonly fourMs: number;

  constructor(
    readonly date: string,
    private readonly zone: string,
    /** Days before the last one. */ readonly ago: number,
  ) {
    this.fourMs = Date.parse(dayBounds(date, zone, '04:00').from);
  }

  /** The instant of a time such as 02:35. */
  ms(time: string): number {
    const [hours = 0, minutes = 0] = time.split(':').map(Number);
    return this.fourMs + (hours * 60 + minutes - 240) * minuteMs;
  }

  /** Monday is 1, Sunday 7. */
  get weekday(): number {
    return dayOfWeek(this.date);
  }

  get isSchoolDay(): boolean {
    return this.weekday <= 5;
  }
  get isSaturday(): boolean {
    return this.weekday === 6;
  }
  plus(days: number): Day {
    return new Day(daysAfter(this.date, days), this.zone, this.ago - days);
  }
}

/** When the last morning of the story is over. */
export const morningEnds = '07:40';

/** The last bake day whose morning is over by now; the story ends with it. */
export function lastBakeDay(now: Date, zone: string): string {
  const today = localDay(now.toISOString(), zone);
  return now.getTime() >= new Day(today, zone, 0).ms(morningEnds) ? today : daysAfter(today, -1);
}
