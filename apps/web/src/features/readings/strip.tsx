import type { Trend } from '@bakehouse/contracts';
import { phrase, type PhraseKey } from '@bakehouse/records';
import { dayTime } from '../../shared/trace/words';
import { isBelieved, size } from './layout';

/** Under the picture: when a value was due and not taken, and what cannot be right. The table of days counts them. */
export function NotTakenStrip({ trend, x }: { readonly trend: Trend; readonly x: (at: number) => number }) {
  const wrong = trend.readings.filter((r) => !isBelieved(r));
  if (trend.notTaken.length + wrong.length === 0) return null;
  return (
    <svg viewBox={`0 0 ${size.width} 26`} aria-hidden="true" className="course-strip">
      {trend.notTaken.map((n) => (
        <g key={n.id} className={n.answer}>
          <title>{`${dayTime(n.at, trend.zone)}: not taken, ${phrase(`notTaken.${n.answer}` as PhraseKey)}`}</title>
          <path d={`M${x(Date.parse(n.at)) - 6} 7h12v12h-12z`} />
        </g>
      ))}
      {wrong.map((r) => (
        <g key={r.id} className="wrong">
          <title>{`${dayTime(r.at, trend.zone)}: ${r.figure}, cannot be right`}</title>
          <path d={`M${x(Date.parse(r.at)) - 6} 7l12 12m0-12l-12 12`} />
        </g>
      ))}
      <text x={size.width - size.right + 8} y={18}>
        Not taken{wrong.length > 0 ? ', or not right' : ''}
      </text>
    </svg>
  );
}
