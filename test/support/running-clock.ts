import { SettableClock } from '../../apps/api/src/platform/clock/index.js';

/** A clock that goes on from where it was put, as the clock of a page does: what happens on the page is then not ahead of the service. */
export class RunningClock extends SettableClock {
  private putAt = performance.now();

  override now(): Date {
    return new Date(super.now().getTime() + performance.now() - this.putAt);
  }

  override set(at: Date | string): void {
    this.putAt = performance.now();
    super.set(at);
  }
}
