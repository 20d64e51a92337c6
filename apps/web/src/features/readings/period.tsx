import { daysAfter, siteDay } from '@bakehouse/kernel';
import { systemClock } from '@bakehouse/offline';
import type { ReactNode } from 'react';
import { Choice, Field } from '../../ui';
import './readings.css';

export const spans = { '7': '7 days', '28': '28 days', '91': '13 weeks', '366': 'a year' } as const;
export type SpanDays = keyof typeof spans;
export interface Chosen {
  readonly span: SpanDays;
  /** The last day; null for today. */
  readonly until: string | null;
}
export const usual: Chosen = { span: '28', until: null };

interface Site {
  readonly zone: string;
  readonly dayStarts: string;
}
const todayAt = (site: Site): string => siteDay(systemClock.now().toISOString(), site);

export function daysOf({ span, until }: Chosen, site: Site): { readonly from: string; readonly until: string } {
  const last = until ?? todayAt(site);
  return { from: daysAfter(last, 1 - Number(span)), until: last };
}

interface Props {
  readonly chosen: Chosen;
  readonly onChoose: (to: Chosen) => void;
  readonly site: Site;
  /** What else is chosen beside them. */
  readonly children?: ReactNode;
}

/** Which days are looked at: so many, up to today or up to another day. */
export function Period({ chosen, onChoose, site, children }: Props) {
  const today = todayAt(site);
  return (
    <div className="course-period">
      <Choice
        label="How many days"
        value={chosen.span}
        onChange={(span) => onChoose({ ...chosen, span })}
        options={Object.entries(spans).map(([value, text]) => ({ value: value as SpanDays, text }))} // its own keys
      />
      <Field
        label="Up to"
        type="date"
        value={chosen.until ?? today}
        onChange={(day) => onChoose({ ...chosen, until: day === '' || day >= today ? null : day })}
      />
      {children}
    </div>
  );
}
