import { siteDay } from '@bakehouse/kernel';
import { systemClock, type NightSite, type Tablet } from '@bakehouse/offline';
import { useEffect, useRef, useState, type ReactNode } from 'react';
import { Redirect } from 'wouter';
import { OfferedFor } from '../../shared/offered';
import { openTablet, type Device } from '../../shared/open-device';
import { sendPhotos } from '../../shared/photos';
import type { Person } from '../../shared/people';
import { TabletProvider } from '../../shared/tablet-context';
import { Notice, Screen, Tile, Tiles } from '../../ui';
import type { AtDeviceProps } from './at-device';
import type { News } from './news';

/** The person signed on, at their site, with what the device holds of it. */
export function AtTheirSite({ device, here, onLeave, onSite, onAgain, children }: AtDeviceProps & { readonly children: ReactNode }) {
  const [site] = here.sites;
  const asked = useRef(here);
  asked.current = here;
  /** A role that was given or taken since they signed on changes what is offered to them. */
  const again = async (): Promise<void> => {
    const now = await device.people.again(here.person.id);
    if (now?.ok && asked.current === here && JSON.stringify(now) !== JSON.stringify(here)) onAgain(now);
  };
  if (!site)
    return (
      <main className="screen">
        <Notice tone="ask" title="No site for this name">
          <p>Nobody gave {here.person.name} a role at a site yet. An administrator can.</p>
        </Notice>
      </main>
    );
  if (here.person.permissions.includes('inspect') && !here.person.permissions.includes('view')) return <Redirect to="/inspector" replace />;
  if (here.mustChoose) return <WhichSite sites={here.sites} onSite={onSite} />;
  return (
    <AtSite key={site.id} device={device} site={site} person={here.person} onLeave={onLeave} onRefreshed={again}>
      {children}
    </AtSite>
  );
}

/** Somebody who works at several sites says at which, once each time they sign on; a site's own tablet never asks. */
function WhichSite({ sites, onSite }: { readonly sites: readonly NightSite[]; readonly onSite: (site: string) => void }) {
  return (
    <Screen title="At which site?">
      <Tiles label="Sites">
        {[...sites]
          .sort((a, b) => a.name.localeCompare(b.name))
          .map((s) => (
            <Tile key={s.id} title={s.name} onClick={() => onSite(s.id)} />
          ))}
      </Tiles>
      <p className="faint">To change to another one, leave and tap your name again.</p>
    </Screen>
  );
}

interface Props {
  readonly device: Device;
  readonly site: NightSite;
  readonly person: Person;
  readonly onLeave: () => void;
  readonly onRefreshed: () => Promise<void>;
  readonly children: ReactNode;
}

function AtSite({ device, site, person, onLeave, onRefreshed, children }: Props) {
  const [tablet, setTablet] = useState<Tablet>();
  const who = useRef(person.id);
  who.current = person.id;
  useEffect(() => {
    let gone = false;
    let open: Tablet | undefined;
    void openTablet(device, site, siteDay(systemClock.now().toISOString(), site), () => who.current).then(async (t) => {
      open = t;
      if (gone) return;
      // A device that holds nothing of this site yet waits for its first answer: an empty screen would say that nothing is open.
      if (t.state.asOf === null) await t.refresh();
      else void t.refresh();
      if (!gone) setTablet(t);
    });
    return () => {
      gone = true;
      open?.stop();
    };
  }, [device, site]);
  useRefreshing(tablet, async () => {
    await onRefreshed();
    await sendPhotos(device.people, who.current);
  });
  if (!tablet)
    return (
      <p className="loading" role="status">
        One moment…
      </p>
    );
  return (
    <TabletProvider value={{ tablet, people: device.people, person, leave: onLeave }}>
      <OfferedFor person={person}>{children}</OfferedFor>
    </TabletProvider>
  );
}

/** Sends and fetches when there is news, now and then, when the network comes back, and when somebody looks at the page again. */
function useRefreshing(tablet: Tablet | undefined, also: () => Promise<void>): void {
  const latest = useRef(also);
  latest.current = also;
  useEffect(() => {
    if (!tablet) return undefined;
    const refresh = (): void => {
      void tablet.refresh().then(() => latest.current()); // a large photo never stands in an entry's way
    };
    void latest.current();
    const seen = (): void => {
      if (document.visibilityState === 'visible') refresh();
    };
    let news: News | undefined;
    let gone = false;
    // not for the first screen; without it, it is asked now and then
    void import('./news').then(({ listenForNews }) => {
      if (!gone) news = listenForNews(tablet.state.site.id, refresh);
    });
    const handle = setInterval(() => {
      if (news?.tick() ?? true) refresh();
    }, 30_000);
    window.addEventListener('online', refresh);
    window.addEventListener('offline', refresh);
    document.addEventListener('visibilitychange', seen);
    return () => {
      clearInterval(handle);
      gone = true;
      news?.stop();
      window.removeEventListener('online', refresh);
      window.removeEventListener('offline', refresh);
      document.removeEventListener('visibilitychange', seen);
    };
  }, [tablet]);
}
