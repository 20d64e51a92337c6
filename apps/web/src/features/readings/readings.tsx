import { trendList, type TrendBy, type TrendSeries } from '@bakehouse/contracts';
import { countText, unitText } from '@bakehouse/kernel';
import { useMemo, useState } from 'react';
import { whole } from '../../shared/format';
import { office } from '../../shared/office-paths';
import { useTabletState } from '../../shared/tablet-context';
import { dayTime } from '../../shared/trace/words';
import { Shown, useLoaded } from '../../shared/use-loaded';
import { Caution, Choice, Screen } from '../../ui';
import { DataTable, type Column } from '../../ui/table';
import { daysOf, Period, usual } from './period';

export const bys: Readonly<Record<TrendBy, string>> = { place: 'Places', product: 'Products', instrument: 'Instruments' };

/** Everything that was read in some weeks: by fridge or oven, by what was made, or by thermometer. A line opens its course. */
export function Readings({ by }: { readonly by: TrendBy }) {
  const { site } = useTabletState();
  const [chosen, choose] = useState(usual);
  const [putBy, choosePutBy] = useState<TrendBy>(by);
  const loaded = useLoaded('/sites/{site}/trends', trendList, {
    params: { path: { site: site.id }, query: { by: putBy, ...daysOf(chosen, site) } },
  });
  const columns = useMemo(() => columnsIn(site.zone), [site.zone]);
  return (
    <Screen title="Readings over time" wide back={{ to: office.home, text: 'Office' }}>
      <Period chosen={chosen} onChoose={choose} site={site}>
        <Choice
          label="Put together by"
          value={putBy}
          onChange={choosePutBy}
          options={Object.entries(bys).map(([value, text]) => ({ value: value as TrendBy, text }))} // its own keys
        />
      </Period>
      <Shown of={loaded}>
        {(list) => (
          <>
            <DataTable
              label={`Readings by ${bys[putBy].toLowerCase()}`}
              columns={columns}
              rows={list.series}
              keyOf={(s) => `${s.of} ${s.measured} ${s.parameter} ${s.point ?? ''}`}
              to={(s) => office.course(s)}
              none="Nothing was read in these days. Choose more days, or an earlier last day."
            />
            {list.leftOut > 0 ? <p>{countText(list.leftOut, 'more series is', 'more series are')} not listed: choose fewer days.</p> : null}
          </>
        )}
      </Shown>
      <Caution />
    </Screen>
  );
}

const columnsIn = (zone: string): readonly Column<TrendSeries>[] => [
  { id: 'name', head: 'Of', text: (s) => s.name },
  { id: 'parameter', head: 'Read', text: (s) => s.parameter },
  { id: 'point', head: 'Control point', text: (s) => s.pointName ?? (s.point === null ? 'none' : s.point) },
  { id: 'unit', head: 'In', text: (s) => unitText(s.unit), spare: true },
  { id: 'readings', head: 'Readings', text: (s) => whole(s.readings), by: (s) => s.readings, look: 'figure' },
  { id: 'outside', head: 'Outside their limit', text: (s) => whole(s.outside), by: (s) => s.outside, look: 'figure' },
  { id: 'latest', head: 'Last', text: (s) => dayTime(s.latest, zone), by: (s) => s.latest },
];
