import { deliveries, type TraceView } from '@bakehouse/contracts';
import { daysAfter, siteDay } from '@bakehouse/kernel';
import { useMemo } from 'react';
import { useTabletState } from '../../shared/tablet-context';
import { isPartial, noneText } from '../../shared/trace/partial';
import { useLoaded } from '../../shared/use-loaded';
import { Caution, Empty } from '../../ui';
import { backwardEnds } from './picture/backward-ends';
import { deliveredIn, type Delivered } from './picture/delivered';
import { folded } from './picture/fold';
import { flowsOf, weightsIn } from './picture/lots-drawn';
import { TracePicture } from './picture/picture';
import { IntoTable } from './picture/rows-table';
import { SavePicture } from './picture/save-picture';

/** As many days of deliveries as the service gives at once. */
const daysGiven = 31;
const nothing: ReadonlyMap<string, Delivered> = new Map();

/** What it was made from, mirrored: the lot that was asked for stands on the right. */
export function Backward({
  trace,
  title,
  at,
  zone,
}: {
  readonly trace: TraceView;
  readonly title: string;
  readonly at: string;
  readonly zone: string;
}) {
  const { site } = useTabletState();
  const until = siteDay(at, site);
  const loaded = useLoaded('/sites/{site}/deliveries', deliveries, {
    params: { path: { site: site.id }, query: { from: daysAfter(until, 1 - daysGiven), until } },
  });
  const { reply } = loaded;
  const came = useMemo(() => (reply?.as === 'ok' ? deliveredIn(reply.value) : nothing), [reply]);
  const { rows, flows } = useMemo(() => {
    const weights = weightsIn(trace);
    const ends = backwardEnds(trace, weights, came, zone);
    const held = new Set(ends.flatMap((e) => (e.look === 'gate' ? [e.lot] : [])));
    const all = flowsOf({ ...trace, lots: trace.lots.filter((l) => !ends.some((e) => e.lot === l.id)) }, weights, ends, held);
    return { rows: ends, flows: folded(all) };
  }, [trace, came, zone]);
  const says = flows.unit === 'mg' ? 'Width is grams put in' : 'Width is pieces put in';
  if (rows.length === 0) return <Empty>{noneText(trace, 'Nothing went into it.')}</Empty>;
  return (
    <section className="flow-card" aria-label="Trace back">
      <TracePicture
        flows={flows}
        rows={rows}
        zone={zone}
        title={`Trace back: ${title}`}
        widthSays={says}
        mirrored
        table={(id, heights) => <IntoTable id={id} rows={rows} heights={heights} />}
      />
      <div className="flow-sums">
        <p className="faint">
          Supplier, note and dates are of deliveries to {site.name} in the {daysGiven} days before; an older one, or another site’s, stands
          at its lot.
        </p>
        {isPartial(trace) ? null : (
          <SavePicture
            flows={flows}
            rows={rows}
            title={`Trace back: ${title}`}
            says={says}
            sums={[]}
            caution={trace.caution}
            zone={zone}
            mirrored
          />
        )}
      </div>
      <Caution />
    </section>
  );
}
