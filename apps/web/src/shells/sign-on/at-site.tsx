import { localDay } from '@bakehouse/domain';
import { systemClock, type NightSite, type Tablet } from '@bakehouse/offline';
import { useEffect, useRef, useState, type ReactNode } from 'react';
import { Redirect } from 'wouter';
import { openTablet, type Device } from '../../shared/open-device';
import type { Person } from '../../shared/people';
import { TabletProvider } from '../../shared/tablet-context';
import { Notice } from '../../shared/ui';
import type { AtDeviceProps } from './at-device';

/** Whoever is here, at their site, with what the device holds of it. */
export function AtTheirSite({ device, here, onLeave, children }: AtDeviceProps & { readonly children: ReactNode }) {
  const [site] = here.sites;
  if (!site) return <main className="screen"><Notice tone="ask" title="No site for this name"><p>Nobody gave {here.person.name} a role at a site yet. Whoever looks after people can.</p></Notice></main>;
  if (here.person.permissions.includes('inspect') && !here.person.permissions.includes('look')) return <Redirect to="/inspector" replace />;
  return <AtSite key={site.id} device={device} site={site} person={here.person} onLeave={onLeave}>{children}</AtSite>;
}

interface Props { readonly device: Device; readonly site: NightSite; readonly person: Person; readonly onLeave: () => void; readonly children: ReactNode }

function AtSite({ device, site, person, onLeave, children }: Props) {
  const [tablet, setTablet] = useState<Tablet>();
  const who = useRef(person.id);
  who.current = person.id;
  useEffect(() => {
    let gone = false;
    let open: Tablet | undefined;
    void openTablet(device, site, localDay(systemClock.now().toISOString(), site.zone), () => who.current).then((t) => {
      open = t;
      if (gone) return;
      setTablet(t);
      void t.refresh();
    });
    return () => { gone = true; open?.stop(); };
  }, [device, site]);
  useRefreshing(tablet);
  if (!tablet) return <p className="loading" role="status">One moment…</p>;
  return <TabletProvider value={{ tablet, people: device.people, person, leave: onLeave }}>{children}</TabletProvider>;
}

/** Sends and fetches now and then, when the network comes back, and when somebody looks at the page again. */
function useRefreshing(tablet: Tablet | undefined): void {
  useEffect(() => {
    if (!tablet) return undefined;
    const refresh = (): void => { void tablet.refresh(); };
    const seen = (): void => { if (document.visibilityState === 'visible') refresh(); };
    const handle = setInterval(refresh, 30_000);
    window.addEventListener('online', refresh);
    document.addEventListener('visibilitychange', seen);
    return () => { clearInterval(handle); window.removeEventListener('online', refresh); document.removeEventListener('visibilitychange', seen); };
  }, [tablet]);
}
