import type { OpenThings as Answer } from '@bakehouse/contracts';
import { problems } from '@bakehouse/kernel';
import { phrase } from '@bakehouse/records';
import { lookupOf, openDeviations } from '@bakehouse/views';
import { useMemo } from 'react';
import { Link } from 'wouter';
import { TakenBack } from '../../shared/taken-back';
import { TroubleWord } from '../../shared/concerns';
import { dayText, whole } from '../../shared/format';
import { office } from '../../shared/office-paths';
import { StillLoading } from '../../shared/still-loading';
import { useNow, useTabletState } from '../../shared/tablet-context';
import { dayTime } from '../../shared/trace/words';
import { Shelves } from '../../shared/shelves';
import { Empty, Section, StateWord } from '../../ui';
import { Held } from './held';

/** Deviations that are not closed, as this device knows them. */
export function OpenDeviations() {
  const { snapshot, site, asOf, loading } = useTabletState();
  const now = useNow(30_000);
  const open = useMemo(() => openDeviations(lookupOf(snapshot, now, site.zone)), [snapshot, now, site.zone]);
  if (asOf === null)
    return (
      <Section title="Open deviations">
        {loading ? <StillLoading /> : <Empty>This device does not know yet: what is open can be seen when the network is back.</Empty>}
      </Section>
    );
  return (
    <Section title={loading ? 'Open deviations' : `Open deviations: ${whole(open.length)}`}>
      <StillLoading />
      {open.length === 0 ? (
        loading ? null : (
          <Empty>Nothing is open.</Empty>
        )
      ) : (
        <ul className="rows">
          {open.map((d) => (
            <li key={d.id}>
              <Link href={`/table/deviation/${d.id}`} className="row">
                {d.state === 'holds' ? (
                  <StateWord shape="gate" tone="bad">
                    on hold
                  </StateWord>
                ) : (
                  <StateWord shape="ring" tone="calm">
                    to close
                  </StateWord>
                )}
                <span className="row-main">
                  <strong>{d.subjectName ?? site.name}</strong> {phrase(`deviation.${d.type}`)}
                  {d.summary === null ? '' : `: ${d.summary}`} <TakenBack of={d.takenBack} />
                </span>
                <span className="row-side">{dayTime(d.at, site.zone)}</span>
              </Link>
            </li>
          ))}
        </ul>
      )}
    </Section>
  );
}

/** What is on hold, and what was sent here and could not be recorded. */
export function HoldsAndSetAside({ of: { held, pastUseBy, setAside }, onDone }: { readonly of: Answer; readonly onDone: () => void }) {
  const {
    site: { zone },
  } = useTabletState();
  return (
    <>
      <Section title={`Food on hold: ${whole(held.length)}`}>
        {held.length === 0 ? (
          <Empty>No food is on hold.</Empty>
        ) : (
          <ul className="rows">
            {held.map((h) => (
              <Held key={h.lot} h={h} onDone={onDone} />
            ))}
          </ul>
        )}
      </Section>
      {pastUseBy.length === 0 ? null : (
        <Section title={`Past the use-by date: ${whole(pastUseBy.length)}`}>
          <ul className="rows">
            {pastUseBy.map((l) => (
              <li key={l.lot} className="row">
                <TroubleWord trouble={l.trouble} />
                <Link href={office.lot(l.lot)} className="row-main">
                  <strong>{l.name}</strong>
                  {l.code === null ? '' : `, lot ${l.code}`} · use by {dayText(l.useBy)}
                </Link>
                <Shelves shelves={l.shelves} off />
              </li>
            ))}
          </ul>
        </Section>
      )}
      {setAside.length === 0 ? null : (
        <Section title={`Sent here, not on record: ${whole(setAside.length)}`}>
          <p>
            These came from a tablet and could not be recorded as they stood. They are set aside here; the person who typed them finds them
            on that tablet under “Recent entries” and can correct them there.
          </p>
          <ul className="rows">
            {setAside.map((k) => (
              <li key={k.id} className="row">
                <StateWord shape={k.as === 'refused' ? 'diamond' : 'ring'} tone={k.as === 'refused' ? 'ask' : 'calm'}>
                  {k.as === 'refused' ? 'refused' : 'waits for another'}
                </StateWord>
                <span className="row-main">
                  <strong>{k.kind === null ? 'not readable' : phrase(`kind.${k.kind}`)}</strong>
                  {k.personName === null ? '' : `, ${k.personName}`}
                  {k.problem === null ? '' : `: ${titleOf(k.problem)}`}
                </span>
                <span className="row-side">{dayTime(k.at, zone)}</span>
              </li>
            ))}
          </ul>
        </Section>
      )}
    </>
  );
}

const titleOf = (problem: string): string => Object.entries(problems).find(([code]) => code === problem)?.[1].title ?? problem;
