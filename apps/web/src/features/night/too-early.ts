/** A reading is early where it is taken so long before it can be, in minutes. A convention of this program, no limit. */
const earlyMinutes = 10;

/** Whether a reading at an instant is so early for what is due from another that somebody has to say that it was meant. */
export const isTooEarly = (at: string, dueFrom: string | null): boolean =>
  dueFrom !== null && Date.parse(dueFrom) - Date.parse(at) >= earlyMinutes * 60_000;
