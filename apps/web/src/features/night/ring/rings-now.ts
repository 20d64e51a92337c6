import type { TimerView } from '@bakehouse/views';

/** Who has not come by then does not come for the noise; that it is overdue stays on every screen. */
const ringsForMs = 30 * 60_000;

/** The timers that are over, from the second that they are due on, and not for so long that ringing helps nobody. */
export const ringsNow = (timers: readonly TimerView[], now: string): TimerView[] =>
  timers.filter(({ due }) => {
    const over = due === null ? -1 : Date.parse(now) - Date.parse(due);
    return over >= 0 && over < ringsForMs;
  });
