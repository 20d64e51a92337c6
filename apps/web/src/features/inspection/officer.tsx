import { inspectionView, type InspectionView } from '@bakehouse/contracts';
import { daysAfter, siteDay } from '@bakehouse/kernel';
import { systemClock } from '@bakehouse/offline';
import { useEffect, useState } from 'react';
import { keepForOfficer, keptForOfficer, type Span } from '../../shared/officer-copies';
import { useTabletIfAny } from '../../shared/tablet-context';
import { dayTime } from '../../shared/trace/words';
import { Button, Choice, Notice, Screen } from '../../ui';
import { Shown, useLoaded } from '../../shared/use-loaded';
import { Inspection } from './inspection';

interface Props {
  readonly site: { readonly id: string; readonly name: string; readonly zone: string; readonly dayStarts: string };
  readonly back: { readonly to: string; readonly text: string };
  readonly earliest?: string | undefined;
  readonly latest?: string | undefined;
}

/** Show the officer: today at once, 30 days by one more tap. Without a network, as this device last saw it. */
export function Officer({ site, back, earliest, latest }: Props) {
  const [span, setSpan] = useState<Span>('today');
  const [other, setOther] = useState<string | null>(null);
  const today = siteDay(systemClock.now().toISOString(), site);
  const until = latest !== undefined && latest < today ? latest : today;
  const month = daysAfter(until, -30);
  const from = span === 'today' ? (other ?? until) : earliest !== undefined && earliest > month ? earliest : month;
  const loaded = useLoaded('/sites/{site}/inspection', inspectionView, {
    params: { path: { site: site.id }, query: { from, until: span === 'today' ? from : until } },
  });
  const { reply } = loaded;
  const tablet = useTabletIfAny();
  const offLine = reply?.as === 'unreachable';
  useEffect(() => {
    if (offLine) void tablet?.refresh(); // so that the line on top says so as well
  }, [offLine, tablet]);
  const kept = useKept(site.id, span, other === null && reply?.as === 'unreachable');
  useEffect(() => {
    if (other === null && reply?.as === 'ok') void keepForOfficer(site.id, span, reply.value);
  }, [other, reply, site.id, span]);
  const onDay = (day: string) =>
    earliest !== undefined && day < earliest
      ? null
      : () => {
          setSpan('today');
          setOther(day);
        };
  return (
    <Screen title="For the officer" back={back} actions={<Button onClick={() => window.print()}>Print this page</Button>}>
      <Choice
        label="Which time"
        hideLabel
        value={span}
        onChange={(chosen) => {
          setSpan(chosen);
          setOther(null);
        }}
        options={[
          { value: 'today', text: until === today ? 'Today' : 'The last day' },
          { value: 'month', text: '30 days' },
        ]}
      />
      {other === null ? null : (
        <div className="buttons">
          <Button look="quiet" onClick={() => setOther(null)}>
            {until === today ? 'Back to today' : 'Back to the last day'}
          </Button>
        </div>
      )}
      {reply?.as === 'unreachable' && kept ? (
        <>
          <Notice tone="ask" title={`This device is off line: as it stood ${dayTime(kept.asOf, site.zone)}`}>
            <p>
              These are the records as this device saw them last. What was recorded since then is missing here: it is on the day’s sheet of
              the tablet that it was typed on. Papers and sealed records are made when the network is back.
            </p>
          </Notice>
          <Inspection view={kept} onDay={onDay} />
        </>
      ) : (
        <Shown of={loaded}>{(view) => <Inspection view={view} onDay={onDay} />}</Shown>
      )}
    </Screen>
  );
}

function useKept(site: string, span: Span, wanted: boolean): InspectionView | null {
  const [held, setHeld] = useState<{ readonly key: string; readonly view: InspectionView | null }>();
  const key = `${site} ${span}`;
  useEffect(() => {
    if (wanted) void keptForOfficer(site, span).then((view) => setHeld({ key, view }));
  }, [wanted, site, span, key]);
  return held?.key === key ? held.view : null;
}
