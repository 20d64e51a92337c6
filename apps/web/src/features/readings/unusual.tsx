import type { Trend, TrendControl } from '@bakehouse/contracts';
import { countText, quantityText } from '@bakehouse/kernel';
import { useState } from 'react';
import { dayText, whole } from '../../shared/format';
import { dayTime } from '../../shared/trace/words';
import { Section } from '../../ui';
import { figureText } from './figures';
import { boundsOf } from './scale';

/** The whole course in a sentence. */
export function headline({ series, days }: Pick<Trend, 'series' | 'days'>): string {
  const among = days.filter((d) => d.lowest !== null && d.highest !== null);
  const [lowest, highest] = [least(among, (d) => d.lowest ?? Infinity), least(among, (d) => -(d.highest ?? -Infinity))];
  const sum = (of: (d: Trend['days'][number]) => number): number => days.reduce((n, d) => n + of(d), 0);
  const parts = [
    countText(
      sum((d) => d.readings),
      'reading',
    ),
    ...told(
      sum((d) => d.outside),
      'outside its limit',
      'outside their limits',
    ),
    ...told(
      sum((d) => d.toConfirm),
      'to be confirmed',
      'to be confirmed',
    ),
    ...told(
      sum((d) => d.notBelievable),
      'that cannot be right',
      'that cannot be right',
    ),
  ];
  const missed = sum((d) => d.notTaken);
  const extent =
    lowest && highest
      ? ` Lowest ${quantityText(figureText(lowest.lowest ?? 0), series.unit)} on ${dayText(lowest.day)}, highest ${quantityText(figureText(highest.highest ?? 0), series.unit)} on ${dayText(highest.day)}.`
      : '';
  return `${parts.join(', ')}.${extent}${missed === 0 ? '' : ` Not taken where it was due: ${whole(missed)}.`}`;
}

const told = (n: number, one: string, more: string): string[] => (n === 0 ? [] : [`${whole(n)} ${n === 1 ? one : more}`]);
const least = <T,>(all: readonly T[], of: (one: T) => number): T | undefined =>
  all.reduce<T | undefined>((found, one) => (found === undefined || of(one) < of(found) ? one : found), undefined);

const whyNot: Readonly<Record<NonNullable<Trend['whyNoControl']>, string>> = {
  'too-few': 'There are fewer than 20 readings that can be relied on: too few to say what is usual. Choose more days.',
  'all-alike': 'All readings are the same, so nothing can be said about how they vary.',
  'too-many': 'There are too many readings to work this out for. Choose fewer days.',
};

/** What is usual and what is not: the mean with three sigma, and the patterns that chance seldom makes. Each rule is on or off by itself. */
export function Unusual({ trend: { control, whyNoControl, series, zone, readings } }: { readonly trend: Trend }) {
  const last = readings.findLast((r) => r.limit !== null);
  const limits = last === undefined ? null : boundsOf(last, series.unit);
  return (
    <Section title="What is usual here">
      {control === null ? <p>{whyNot[whyNoControl ?? 'too-few']}</p> : <Found control={control} unit={series.unit} zone={zone} />}
      {control !== null && limits !== null && goesPast(control, limits) ? (
        <p>
          <strong>What is usual here goes past the limit.</strong> Somebody who leads food safety should look at why.
        </p>
      ) : null}
      <p className="hint">
        Worked out from these readings alone: the mean and three sigma of the moving range (NIST/SEMATECH e-Handbook 6.3.2.2), and Nelson’s
        tests. It says what is usual, not what is safe: a limit stands in the plan.
      </p>
    </Section>
  );
}

const goesPast = (control: TrendControl, { min, max }: { readonly min: number | null; readonly max: number | null }): boolean =>
  (min !== null && control.lower < min) || (max !== null && control.upper > max);

function Found({ control, unit, zone }: { readonly control: TrendControl; readonly unit: string; readonly zone: string }) {
  const rules = [...new Map(control.signals.map((s) => [s.rule, s.name]))].sort(([a], [b]) => a - b);
  const [off, turn] = useState<ReadonlySet<number>>(new Set(rules.map(([rule]) => rule).filter((rule) => rule > routine)));
  const shown = control.signals.filter((s) => !off.has(s.rule));
  return (
    <>
      <p>
        Usual is {quantityText(`${figureText(control.lower)} to ${figureText(control.upper)}`, unit)}, on average{' '}
        {quantityText(figureText(control.centre), unit)}, from {countText(control.readings, 'reading')}.
      </p>
      {rules.length === 0 ? <p>No pattern that chance seldom makes.</p> : null}
      {rules.length === 0 ? null : (
        <fieldset className="course-rules">
          <legend>Patterns to look for</legend>
          {rules.map(([rule, name]) => (
            <label key={rule}>
              <input
                type="checkbox"
                checked={!off.has(rule)}
                onChange={(e) => turn(new Set(e.target.checked ? [...off].filter((o) => o !== rule) : [...off, rule]))}
              />{' '}
              {name}
            </label>
          ))}
        </fieldset>
      )}
      {shown.length === 0 ? null : (
        <ul className="course-signals">
          {shown.slice(-maxSignals).map((s) => (
            <li key={`${s.rule} ${s.reading}`}>
              {dayTime(s.at, zone)}: {s.name}
            </li>
          ))}
        </ul>
      )}
      {shown.length > maxSignals ? (
        <p className="hint">
          The last {maxSignals} of {whole(shown.length)}.
        </p>
      ) : null}
    </>
  );
}

/** Nelson calls tests 1 to 4 the ones to apply routinely. */
const routine = 4;
const maxSignals = 20;
