import type { TraceView } from '@bakehouse/contracts';
import { quantityText } from '@bakehouse/kernel';
import { verdict as verdicts } from '@bakehouse/records';
import { limitText } from '../format';
import { readingDoubt } from '../reading-doubt';
import { judgedValue } from '../../ui/verdict-text';
import { Section, VerdictMark } from '../../ui';
import { dayTime } from './words';

/** What was read at each heat step: evidence to judge by. It takes nothing out of the scope. */
export function Heat({ trace, zone }: { readonly trace: TraceView; readonly zone: string }) {
  const { steps, note } = trace.heat;
  if (note === null) return null;
  const lots = new Map(trace.lots.map((l) => [l.id, `${l.name}${l.code === null ? '' : ` ${l.code}`}`]));
  return (
    <Section title="The oven does not clear it">
      <p>{note}</p>
      {steps.length === 0 ? null : (
        <details>
          <summary>What was read: {steps.length}</summary>
          <table className="lines">
            <thead>
              <tr>
                <th scope="col">Lot</th>
                <th scope="col">Read</th>
                <th scope="col">Limit and its basis</th>
                <th scope="col">Verdict</th>
              </tr>
            </thead>
            <tbody>
              {steps.map((s, i) => {
                const verdict = verdicts.safeParse(s.verdict).data ?? 'no-limit';
                return (
                  <tr key={`${s.lot} ${i}`}>
                    <td>
                      {lots.get(s.lot) ?? 'a lot'}
                      <br />
                      <span className="faint">{dayTime(s.at, zone)}</span>
                    </td>
                    <td>
                      {s.parameter} {s.figure === null ? '–' : quantityText(s.figure, s.unit)}
                      {s.seconds === null ? '' : `, ${s.seconds} s`}
                    </td>
                    <td>
                      {s.limit ? limitText(s.limit) : 'none'}
                      <br />
                      <span className="faint">{s.basis}</span>
                    </td>
                    <td>
                      <VerdictMark verdict={verdict} value={judgedValue(s.figure, s.unit, s.limit)} doubt={readingDoubt(s.doubt, zone)} />
                      {s.corrected ? (
                        <>
                          <br />
                          <span className="faint">corrected</span>
                        </>
                      ) : null}
                    </td>
                  </tr>
                );
              })}
            </tbody>
          </table>
        </details>
      )}
    </Section>
  );
}
