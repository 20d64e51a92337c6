import type { InspectedReading } from '@bakehouse/contracts';
import { observedText, spanText } from '@bakehouse/kernel';
import { official, phrase, verdict, type PhraseKey } from '@bakehouse/records';
import { limitText } from '../../shared/format';
import { readingDoubt } from '../../shared/reading-doubt';
import { dayTime } from '../../shared/trace/words';
import { VerdictMark } from '../../ui';
import { judgedValue } from '../../ui/verdict-text';

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

export function Reading({ r, zone, subject = false }: { readonly r: InspectedReading; readonly zone: string; readonly subject?: boolean }) {
  return (
    <tr>
      <td>
        {subject ? (
          <>
            <strong>{r.subjectName ?? 'the site'}</strong>
            <br />
          </>
        ) : null}
        {r.parameter}
        {r.class === null ? (
          ''
        ) : (
          <>
            <br />
            <span className={`class ${r.class}`}>{phrase(`class.${r.class}` as PhraseKey)}</span>{' '}
            <span className="faint">{official(`class.${r.class}` as PhraseKey)}</span>
          </>
        )}
      </td>
      <td className="amount">{observedText(r)}</td>
      <td>{r.limit ? limitText(r.limit) : 'none'}</td>
      <td>
        <VerdictMark
          verdict={verdict.safeParse(r.verdict).data ?? 'no-limit'}
          value={judgedValue(r.figure, r.unit, r.limit)}
          doubt={readingDoubt(r.doubt, zone)}
        />
        {r.corrected ? (
          <>
            <br />
            <span className="faint">corrected</span>
          </>
        ) : null}
      </td>
      <td className="faint">
        {whenAndWhoText(r, zone)}
        {r.instrument === null ? '' : `; ${r.instrument}`}
        {r.note === null ? '' : `. “${r.note}”`}
      </td>
    </tr>
  );
}

export function Readings({
  readings,
  zone,
  subject = false,
}: {
  readonly readings: readonly InspectedReading[];
  readonly zone: string;
  readonly subject?: boolean;
}) {
  return readings.length === 0 ? null : (
    <table className="lines">
      <thead>
        <tr>
          <th scope="col">Read</th>
          <th scope="col" className="amount">
            Value
          </th>
          <th scope="col">Limit</th>
          <th scope="col">Verdict</th>
          <th scope="col">When and who</th>
        </tr>
      </thead>
      <tbody>
        {readings.map((r) => (
          <Reading key={r.id} r={r} zone={zone} subject={subject} />
        ))}
      </tbody>
    </table>
  );
}
