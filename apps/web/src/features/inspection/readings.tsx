import type { InspectedReading } from '@bakehouse/contracts';
import { observedText } from '@bakehouse/kernel';
import { official, phrase, verdict, type PhraseKey } from '@bakehouse/records';
import { limitText } from '../../shared/format';
import { whenAndWhoText } from '../../shared/inspected/when-and-who';
import { readingDoubt } from '../../shared/reading-doubt';
import { VerdictMark } from '../../ui';
import { judgedValue } from '../../ui/verdict-text';

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
