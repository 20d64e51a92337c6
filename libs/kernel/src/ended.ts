/**
 * Whether something that can end and be taken up again is at its end at an instant: its last end until then is not followed by a later
 * beginning. All instants UTC with milliseconds, so that they compare as text.
 */
export function isEnded(ends: readonly string[], beginnings: readonly string[], at: string): boolean {
  const last = (instants: readonly string[]): string => instants.filter((i) => i <= at).reduce((a, b) => (a > b ? a : b), '');
  return last(ends) !== '' && last(ends) >= last(beginnings);
}
