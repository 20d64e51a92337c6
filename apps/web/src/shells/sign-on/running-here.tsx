import { siteDay } from '@bakehouse/kernel';
import { systemClock, type Tablet } from '@bakehouse/offline';
import { useEffect, useState } from 'react';
import { timerPlace, useTimers } from '../../features/night/house/use-timers';
import { Rings } from '../../features/night/ring/rings';
import { RingingBar } from '../../features/night/ring/ringing-bar';
import { countdown, howLong, wallTime } from '../../shared/format';
import { openTablet, type Device } from '../../shared/open-device';
import { TabletProvider, useNow, useTabletState } from '../../shared/tablet-context';

const nobody = { id: '', name: '', permissions: [], withPin: [] };
const stay = (): void => undefined;

/** What this tablet times, heard and seen by everybody in the shop while nobody is signed on: where, and when it is due. What it is, and whose, is for those who sign on. */
export function RunningHere({ device }: { readonly device: Device }) {
  const [tablet, setTablet] = useState<Tablet>();
  useEffect(() => {
    let gone = false;
    let open: Tablet | undefined;
    void device.people.siteHere().then(async (site) => {
      if (site === null) return;
      open = await openTablet(device, site, siteDay(systemClock.now().toISOString(), site), () => '');
      if (gone) open.stop();
      else setTablet(open);
    });
    return () => {
      gone = true;
      open?.stop();
    };
  }, [device]);
  if (!tablet) return null;
  return (
    <TabletProvider value={{ tablet, people: device.people, person: nobody, leave: stay }}>
      <RingingBar leads={false} />
      <Rings named={false} />
      <Running />
    </TabletProvider>
  );
}

function Running() {
  const timers = useTimers();
  const now = useNow(1_000);
  const { zone } = useTabletState().site;
  if (timers.length === 0) return null;
  return (
    <ul className="timers running-here" aria-label="Running now">
      {timers.map((t) => {
        const left = t.due === null ? undefined : countdown(t.due, now);
        return (
          <li key={`${t.subject} ${t.step}`} className={`timer ${left?.over ? 'over' : 'running'}`}>
            <span className="timer-left">{left?.text ?? howLong(t.since, now)}</span>
            <span className="timer-name">{timerPlace(t)}</span>
            <span className="timer-where">
              {t.due === null ? 'in it' : `${left?.over ? 'over, was due' : 'due'} ${wallTime(t.due, zone)}`}
            </span>
          </li>
        );
      })}
    </ul>
  );
}
