import type { Trend, TrendReading } from '@bakehouse/contracts';
import { quantityText, unitText } from '@bakehouse/kernel';
import { useCallback, useId } from 'react';
import { dayText, limitText } from '../../shared/format';
import { dayTime } from '../../shared/trace/words';
import { figureText } from './figures';
import { isBelieved, layoutOf, size, type Layout } from './layout';
import { NotTakenStrip } from './strip';
import { verdictOf } from './verdict-of';
import './readings.css';

/** The course of a series. Everything on it stands in the tables below it as well, so that a reader and a keyboard miss nothing. */
export function Chart({ trend, says }: { readonly trend: Trend; readonly says: string }) {
  const hatch = useId();
  const at = layoutOf(trend);
  // On a narrow screen it is wider than that: the newest is looked at first.
  const newest = useCallback((frame: HTMLDivElement | null) => frame?.scrollTo({ left: frame.scrollWidth }), []);
  const { unit } = trend.series;
  return (
    <div className="course" ref={newest}>
      <svg viewBox={`0 0 ${size.width} ${size.height}`} role="img" aria-label={says}>
        <defs>
          <pattern id={hatch} width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
            <path className="course-hatch" d="M0 0V7" />
          </pattern>
        </defs>
        <Grid at={at} unit={unit} />
        <Limits at={at} hatch={hatch} />
        <Control trend={trend} at={at} />
        <Days at={at} />
        {at.points.map((r) => (
          <Point key={r.id} r={r} at={at} zone={trend.zone} />
        ))}
        <LimitNames trend={trend} at={at} />
      </svg>
      <NotTakenStrip trend={trend} x={at.x} />
    </div>
  );
}

function Grid({ at, unit }: { readonly at: Layout; readonly unit: Trend['series']['unit'] }) {
  const [right, foot] = [size.width - size.right, size.height - size.bottom];
  return (
    <g className="course-grid">
      {at.ticks.map((tick) => (
        <g key={tick}>
          <path d={`M${size.left} ${at.y(tick)}H${right}`} />
          <text x={size.left - 8} y={at.y(tick) + 5} textAnchor="end">
            {figureText(tick)}
          </text>
        </g>
      ))}
      {at.marks.map((m) => (
        <g key={m.day}>
          <path d={`M${at.x(m.at)} ${size.top}V${foot}`} />
          <text x={at.x(m.at)} y={foot + 20}>
            {dayText(m.day)}
          </text>
        </g>
      ))}
      <text x={0} y={foot + 20}>
        {unitText(unit)}
      </text>
    </g>
  );
}

/** Hatched is where a value must not be. */
function Limits({ at, hatch }: { readonly at: Layout; readonly hatch: string }) {
  const [top, foot] = [size.top, size.height - size.bottom];
  return at.limits.map((l) => {
    const [x, wide] = [at.x(l.from), Math.max(at.x(l.until) - at.x(l.from), 1)];
    return (
      <g key={l.from} className="course-limit">
        {l.min === null ? null : (
          <>
            <rect x={x} y={at.y(l.min)} width={wide} height={Math.max(foot - at.y(l.min), 0)} fill={`url(#${hatch})`} />
            <path d={`M${x} ${at.y(l.min)}h${wide}`} />
          </>
        )}
        {l.max === null ? null : (
          <>
            <rect x={x} y={top} width={wide} height={Math.max(at.y(l.max) - top, 0)} fill={`url(#${hatch})`} />
            <path d={`M${x} ${at.y(l.max)}h${wide}`} />
          </>
        )}
      </g>
    );
  });
}

function Control({ trend: { control }, at }: { readonly trend: Trend; readonly at: Layout }) {
  if (control === null) return null;
  const right = size.width - size.right;
  return (
    <g className="course-control">
      {[control.lower, control.centre, control.upper].map((value, i) => (
        <path key={value} className={i === 1 ? 'centre' : ''} d={`M${size.left} ${at.y(value)}H${right}`} />
      ))}
    </g>
  );
}

/** Names beside the lines, moved apart where they would stand on each other. */
function LimitNames({ trend: { control }, at }: { readonly trend: Trend; readonly at: Layout }) {
  const { min = null, max = null } = at.limits.at(-1) ?? {};
  const names = [
    ...(min === null ? [] : [{ value: min, text: `Limit: ${figureText(min)} or more`, look: 'limit' }]),
    ...(max === null ? [] : [{ value: max, text: `Limit: ${figureText(max)} or less`, look: 'limit' }]),
    ...(control === null
      ? []
      : [
          { value: control.upper, text: `Usual, up to ${figureText(control.upper)}`, look: 'usual' },
          { value: control.lower, text: `Usual, from ${figureText(control.lower)}`, look: 'usual' },
        ]),
  ].sort((a, b) => b.value - a.value);
  let above = -Infinity;
  return (
    <g className="course-names">
      {names.map((n) => {
        const y = Math.max(at.y(n.value) + 5, above + 16);
        above = y;
        return (
          <text key={n.text} className={n.look} x={size.width - size.right + 8} y={y}>
            {n.text}
          </text>
        );
      })}
    </g>
  );
}

function Days({ at }: { readonly at: Layout }) {
  return at.days.map((d) => {
    if (d.lowest === null || d.highest === null || d.middle === null) return null;
    const [x, wide] = [at.x(d.begins), at.x(d.ends) - at.x(d.begins)];
    return (
      <g key={d.day} className="course-day">
        <rect x={x + wide * 0.25} width={wide * 0.5} y={at.y(d.highest)} height={Math.max(at.y(d.lowest) - at.y(d.highest), 1)} />
        <path d={`M${x + wide * 0.15} ${at.y(d.middle)}h${wide * 0.7}`} />
      </g>
    );
  });
}

/** Outside a limit is a triangle, what has to be read again or confirmed is hollow: told apart without colour. */
function Point({ r, at, zone }: { readonly r: TrendReading; readonly at: Layout; readonly zone: string }) {
  const [x, y] = [at.x(Date.parse(r.at)), at.y(r.value)];
  const look = lookOf(r);
  const shape = { bad: `M${x} ${y - 7}l7 12h-14z`, again: `M${x} ${y - 6}l6 6-6 6-6-6z`, fine: '' }[look];
  return (
    <g className={`course-point ${look}`}>
      <title>{pointText(r, zone)}</title>
      {look === 'fine' ? <circle cx={x} cy={y} r="4" /> : <path d={shape} />}
    </g>
  );
}

function lookOf(r: TrendReading): 'bad' | 'again' | 'fine' {
  if (r.doubt !== null || r.verdict === 'unsure' || !isBelieved(r)) return 'again';
  return r.verdict === 'outside' ? 'bad' : 'fine';
}

/** A reading in words: when, what, its verdict, what it was about. */
const pointText = (r: TrendReading, zone: string): string =>
  [
    dayTime(r.at, zone),
    quantityText(r.figure, r.unit),
    verdictOf(r, zone),
    ...(r.limit ? [limitText(r.limit)] : []),
    ...(r.about === null ? [] : [r.about]),
  ].join(', ');
