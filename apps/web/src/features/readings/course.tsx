import { trend as trendContract, trendBy, type Trend } from '@bakehouse/contracts';
import { countText } from '@bakehouse/kernel';
import { pointMeasured } from '@bakehouse/records';
import { useState } from 'react';
import { office } from '../../shared/office-paths';
import { useTabletState } from '../../shared/tablet-context';
import { Shown, useLoaded } from '../../shared/use-loaded';
import { Caution, Empty, Screen, Section } from '../../ui';
import { Chart } from './chart';
import { DayTable, ReadingTable } from './course-tables';
import { daysOf, Period, usual } from './period';
import { headline, Unusual } from './unusual';

interface Props {
  readonly by: string;
  readonly of: string;
  readonly measured: string;
  readonly parameter: string;
  /** The key of its control point; null for what was read for none. */
  readonly point: string | null;
}

/** One series over time. */
export function Course({ by, of, measured, parameter, point }: Props) {
  const [putBy, takenAs] = [trendBy.safeParse(by).data, pointMeasured.safeParse(measured).data];
  return putBy === undefined || takenAs === undefined ? (
    <Screen title="Readings over time" wide back={{ to: office.readings, text: 'All readings' }}>
      <Empty>There are no such readings. Go back to the list and choose one.</Empty>
    </Screen>
  ) : (
    <Known by={putBy} of={of} measured={takenAs} parameter={parameter} point={point} />
  );
}

function Known(asked: Pick<Trend['series'], 'by' | 'of' | 'measured' | 'parameter' | 'point'>) {
  const { site } = useTabletState();
  const [chosen, choose] = useState(usual);
  const { by, of, measured, parameter, point } = asked;
  const loaded = useLoaded('/sites/{site}/trends/series', trendContract, {
    params: {
      path: { site: site.id },
      query: { by, of, measured, parameter, ...(point === null ? {} : { point }), ...daysOf(chosen, site) },
    },
  });
  const { reply } = loaded;
  const [named, keep] = useState<string | null>(null);
  const found = reply?.as === 'ok' ? titleOf(reply.value.series) : null;
  if (found !== null && found !== named) keep(found);
  const name = found ?? named ?? parameter;
  const nothingRead = reply?.as === 'problem' && reply.problem.field === 'of';
  return (
    <Screen title={name} wide back={{ to: office.readings, text: 'All readings' }}>
      <Period chosen={chosen} onChoose={choose} site={site} />
      {nothingRead ? (
        <Empty>Nothing was read here in these days. Choose more days, or another last day.</Empty>
      ) : (
        <Shown of={loaded}>{(trend) => <Read trend={trend} />}</Shown>
      )}
      <Caution />
    </Screen>
  );
}

const titleOf = ({ name, parameter, pointName }: Trend['series']): string =>
  [name, parameter, ...(pointName === null || pointName === parameter ? [] : [pointName])].join(', ');

function Read({ trend }: { readonly trend: Trend }) {
  const says = headline(trend);
  return (
    <>
      <p className="course-says">{says}</p>
      <div className="course-top">
        <Chart trend={trend} says={says} />
        <Unusual trend={trend} />
      </div>
      {trend.leftOut > 0 ? (
        <p className="hint">
          Of {countText(trend.series.readings, 'reading')} the picture and the list show each stretch’s lowest and highest, and all that
          were not within their limit; the days count all of them.
        </p>
      ) : null}
      <p className="hint">
        “Not taken” is what somebody said was not taken. What was due and nobody said anything about stands on the officer’s page and in the
        pack.
      </p>
      <Section title="Day by day">
        <DayTable trend={trend} />
      </Section>
      <Section title="Each reading">
        <ReadingTable trend={trend} />
      </Section>
    </>
  );
}
