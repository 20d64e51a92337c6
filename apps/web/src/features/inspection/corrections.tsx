import type { InspectionView } from '@bakehouse/contracts';
import { phrase } from '@bakehouse/records';
import { dayTime } from '../../shared/trace/words';
import { Empty } from '../../ui';

/** Corrections: what a record said before, what it says now, who, when and why. Both stay readable. */
export function Corrections({ corrections, zone }: { readonly corrections: InspectionView['corrections']; readonly zone: string }) {
  if (corrections.length === 0) return <Empty>No record of this time was corrected.</Empty>;
  return (
    <ul className="made">
      {corrections.map((c) => (
        <li key={c.root} className="card">
          <h3>{phrase(`kind.${c.kind}`)}</h3>
          <ol>
            {c.versions.map((v) => (
              <li key={v.entry}>
                {dayTime(v.recordedAt, zone)}
                {v.by === null ? '' : `, ${v.by}`}
                {v.withdrawn ? ': taken back' : ''}
                {v.reason === null ? '' : `. Why: “${v.reason}”`}
                {v.changes.length === 0 ? null : (
                  <ul>
                    {v.changes.map((ch) => (
                      <li key={ch.path.join('.')}>
                        <span className="faint">{ch.path.join(' › ')}:</span> {ch.before} → <strong>{ch.after}</strong>
                      </li>
                    ))}
                  </ul>
                )}
              </li>
            ))}
          </ol>
        </li>
      ))}
    </ul>
  );
}
