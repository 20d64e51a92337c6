import type { Trend, TrendDay, TrendReading } from '@bakehouse/contracts';
import { observedText, quantityText } from '@bakehouse/kernel';
import { useMemo } from 'react';
import { dayText, limitText, whole } from '../../shared/format';
import { readingDoubt } from '../../shared/reading-doubt';
import { dayTime } from '../../shared/trace/words';
import { VerdictMark } from '../../ui';
import { DataTable, type Column } from '../../ui/table';
import { judgedValue } from '../../ui/verdict-text';
import { figureText } from './figures';
import { verdictOf } from './verdict-of';

/** Each day beside the others: the newest first. */
export function DayTable({ trend: { days, series } }: { readonly trend: Trend }) {
  const columns = useMemo(() => dayColumns(series.unit), [series.unit]);
  const newest = useMemo(() => [...days].reverse(), [days]);
  return <DataTable label="Days" columns={columns} rows={newest} keyOf={(d) => d.day} none="Nothing was read in these days." />;
}

function dayColumns(unit: string): readonly Column<TrendDay>[] {
  const value = (v: number | null): string => (v === null ? '' : quantityText(figureText(v), unit));
  return [
    { id: 'day', head: 'Day', text: (d) => dayText(d.day), by: (d) => d.day },
    { id: 'readings', head: 'Readings', text: (d) => whole(d.readings), by: (d) => d.readings, look: 'figure' },
    { id: 'lowest', head: 'Lowest', text: (d) => value(d.lowest), by: (d) => d.lowest, look: 'figure' },
    { id: 'middle', head: 'Middle', text: (d) => value(d.middle), by: (d) => d.middle, look: 'figure', spare: true },
    { id: 'highest', head: 'Highest', text: (d) => value(d.highest), by: (d) => d.highest, look: 'figure' },
    { id: 'outside', head: 'Outside', text: (d) => whole(d.outside), by: (d) => d.outside, look: 'figure' },
    { id: 'confirm', head: 'To be confirmed', text: (d) => whole(d.toConfirm), by: (d) => d.toConfirm, look: 'figure', spare: true },
    { id: 'wrong', head: 'Cannot be right', text: (d) => whole(d.notBelievable), by: (d) => d.notBelievable, look: 'figure', spare: true },
    { id: 'missed', head: 'Not taken', text: (d) => whole(d.notTaken), by: (d) => d.notTaken, look: 'figure' },
  ];
}

/** The readings themselves, the newest first. */
export function ReadingTable({ trend: { readings, zone } }: { readonly trend: Trend }) {
  const columns = useMemo(() => readingColumns(zone), [zone]);
  const newest = useMemo(() => [...readings].reverse(), [readings]);
  return <DataTable label="Each reading" columns={columns} rows={newest} keyOf={(r) => r.id} none="Nothing was read in these days." />;
}

const readingColumns = (zone: string): readonly Column<TrendReading>[] => [
  { id: 'at', head: 'When', text: (r) => dayTime(r.at, zone), by: (r) => r.at },
  { id: 'value', head: 'Value', text: (r) => observedText({ ...r, yes: null }), by: (r) => r.value, look: 'figure' },
  { id: 'limit', head: 'Limit', text: (r) => (r.limit === null ? 'none' : limitText(r.limit)) },
  {
    id: 'verdict',
    head: 'Verdict',
    text: (r) => [verdictOf(r, zone), ...(r.corrected ? ['corrected'] : [])].join(', '),
    shown: (r) => (
      <>
        <VerdictMark verdict={r.verdict} value={judgedValue(r.figure, r.unit, r.limit)} doubt={readingDoubt(r.doubt, zone)} />
        {r.corrected ? <span className="faint"> corrected</span> : null}
      </>
    ),
  },
  { id: 'about', head: 'Of', text: (r) => r.about ?? '' },
  { id: 'instrument', head: 'With', text: (r) => r.instrument ?? '', spare: true },
];
