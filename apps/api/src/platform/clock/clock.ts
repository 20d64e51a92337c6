/** What time it is. Everything that needs the time is given one of these. */
export interface Clock {
  now(): Date;
}

/** Under this token the application's clock is injected. */
export const CLOCK = Symbol('Clock');

export const systemClock: Clock = { now: () => new Date(Date.now()) };

/** A clock that stands where it was put: for tests, and for history that is written through the door as it happened. */
export class SettableClock implements Clock {
  private ms: number;

  constructor(at: Date | string) {
    this.ms = instant(at);
  }

  now(): Date {
    return new Date(this.ms);
  }

  set(at: Date | string): void {
    this.ms = instant(at);
  }

  advance(by: { readonly hours?: number; readonly minutes?: number; readonly seconds?: number; readonly ms?: number }): void {
    this.ms += (((by.hours ?? 0) * 60 + (by.minutes ?? 0)) * 60 + (by.seconds ?? 0)) * 1000 + (by.ms ?? 0);
  }
}

function instant(at: Date | string): number {
  const ms = new Date(at).getTime();
  if (Number.isNaN(ms)) throw new RangeError(`not an instant: ${String(at)}`);
  return ms;
}
