import { inspectionView, type InspectionView } from '@bakehouse/contracts';
import { siteDay } from '@bakehouse/kernel';
import { useEffect, useState } from 'react';
import { whole } from '../../shared/format';
import { DecidedFood, Waste } from '../../shared/inspected/food';
import { Deviations } from '../../shared/inspected/deviations';
import { Holds } from '../../shared/inspected/holds';
import { Recalls } from '../../shared/inspected/recalls';
import { keepForOfficer, keptForOfficer } from '../../shared/officer-copies';
import { dayTime } from '../../shared/trace/words';
import { Shown, useLoaded } from '../../shared/use-loaded';
import { Notice, Section } from '../../ui';
import type { Night } from '../../shared/night/use-night';
import { OpenDeviations } from './sheet-open';

/**
 * What was found, held, recalled, decided and thrown away on the day, as the officer's page tells it. Decisions are made at the service alone: without a network it is
 * the copy that the device keeps for the officer, with its time, and what is open by the tablet's own records.
 */
export function DecidedOnTheDay({ night }: { readonly night: Night }) {
  const { state, day, zone } = night;
  const loaded = useLoaded('/sites/{site}/inspection', inspectionView, {
    params: { path: { site: state.site.id }, query: { from: day, until: day } },
  });
  const { reply } = loaded;
  const offLine = reply?.as === 'unreachable';
  const isToday = day === siteDay(night.now, state.site);
  useEffect(() => {
    if (isToday && reply?.as === 'ok') void keepForOfficer(state.site.id, 'today', reply.value);
  }, [isToday, reply, state.site.id]);
  const kept = useKeptOf(state.site.id, day, offLine);
  if (offLine && kept)
    return (
      <>
        <Notice
          tone="ask"
          title={`This device is off line: deviations, holds, recalls and decisions are as of ${dayTime(kept.asOf, zone)}`}
        >
          <p>What was decided since then is missing here. Print the sheet again when the network is back.</p>
        </Notice>
        <Sections view={kept} night={night} />
      </>
    );
  return (
    <>
      {reply && reply.as !== 'ok' ? <OpenDeviations night={night} besides={[]} title="Open deviations" /> : null}
      <Shown of={loaded}>{(view) => <Sections view={view} night={night} />}</Shown>
    </>
  );
}

function Sections({ view, night }: { readonly view: InspectionView; readonly night: Night }) {
  const { zone, state } = night;
  return (
    <>
      <Section title="Deviations opened, decided on or closed on this day">
        <Deviations deviations={view.deviations} zone={zone} />
      </Section>
      <OpenDeviations night={night} besides={view.deviations.map((d) => d.id)} title="Other deviations still open" />
      <Section title="Holds begun or ended on this day">
        <Holds {...view.checks} zone={zone} />
      </Section>
      <Section title="Recalls open, opened or closed on this day">
        <Recalls recalls={view.recalls} zone={zone} />
      </Section>
      <Section title="Decided about food on this day">
        <DecidedFood decisions={view.decisions} zone={zone} />
      </Section>
      <Section title="Thrown away on this day">
        <Waste waste={view.waste} zone={zone} />
      </Section>
      {state.pending.length === 0 ? null : (
        <p className="faint">
          {whole(state.pending.length)} records of this tablet are still to be sent: what they tell of holds and of what was thrown away is
          not in these sections yet.
        </p>
      )}
    </>
  );
}

/** The copy for the officer, where it is of this day. */
function useKeptOf(site: string, day: string, wanted: boolean): InspectionView | null {
  const [held, setHeld] = useState<InspectionView | null>(null);
  useEffect(() => {
    if (wanted) void keptForOfficer(site, 'today').then(setHeld);
  }, [wanted, site]);
  return held?.from === day && held.until === day ? held : null;
}
