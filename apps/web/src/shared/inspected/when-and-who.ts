import { spanText } from '@bakehouse/kernel';
import { dayTime } from '../trace/words';

interface WhenAndWho {
  readonly at: string;
  readonly precision: string | null;
  readonly until: string | null;
  readonly recordedAt: string | null;
  readonly doneBy: string | null;
  readonly recordedBy: string | null;
  readonly note: string | null;
}

/** A catch-up: typed so much later than it happened that a reader should know. */
const lateMs = 30 * 60_000;

const certainties: Readonly<Record<string, string>> = { about: 'about ', between: 'between ', unknown: 'time unknown, by ' };

/** When it happened, with how surely that is known where it is not exact. */
export const happenedText = (
  of: Pick<WhenAndWho, 'at' | 'precision' | 'until'>,
  zone: string,
  shown: (at: string, zone: string) => string = dayTime,
): string => `${certainties[of.precision ?? 'exact'] ?? ''}${spanText(of, zone, shown)}`;

/** When it was and who did it; and who typed it, and when, where that is not the same. */
export function whenAndWhoText(of: WhenAndWho, zone: string): string {
  const { at, recordedAt, doneBy, recordedBy } = of;
  const when = happenedText(of, zone);
  const by = doneBy === null ? '' : `, ${doneBy}`;
  const late = recordedAt !== null && Date.parse(recordedAt) - Date.parse(at) > lateMs;
  const typed = recordedBy !== null && doneBy !== null && recordedBy !== doneBy;
  return `${when}${by}${typed || late ? ` (recorded${typed ? ` by ${recordedBy}` : ''}${late && recordedAt !== null ? ` ${dayTime(recordedAt, zone)}` : ''})` : ''}`;
}
