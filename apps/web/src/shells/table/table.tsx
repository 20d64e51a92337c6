import { localDay } from '@bakehouse/domain';
import { systemClock, type NightSite, type Tablet } from '@bakehouse/offline';
import { useEffect, useRef, useState } from 'react';
import { openDevice, openTablet, type Device } from '../../shared/open-device';
import type { Person, SignedOnHere } from '../../shared/people';
import { TabletProvider } from '../../shared/tablet-context';
import { Notice } from '../../shared/ui';
import { Inside } from './inside';
import { SignOn } from './sign-on';

type Here = Extract<SignedOnHere, { ok: true }>;
type Opened = { readonly device: Device } | { readonly failed: string };

/** The table's tablet: names to tap first, then the night. */
export function Table() {
  const [opened, setOpened] = useState<Opened>();
  const [here, setHere] = useState<Here>();
  useEffect(() => {
    void (async () => {
      try {
        const device = await openDevice();
        await device.people.load();
        const back = await device.people.resume();
        if (back?.ok) setHere(back);
        setOpened({ device });
      } catch (error) {
        setOpened({ failed: error instanceof Error ? error.message : String(error) });
      }
    })();
  }, []);
  if (!opened) return <p className="loading" role="status">One moment…</p>;
  if ('failed' in opened) {
    return (
      <main className="screen"><Notice tone="bad" title="This browser keeps nothing for this page">
        <p>Records could not be saved on this tablet, so none are taken. Write them on paper for now. Leave private browsing, free some space, or use another browser; then load the page again.</p>
        <p className="faint">What the browser said: {opened.failed}</p>
      </Notice></main>
    );
  }
  const { device } = opened;
  if (!here) return <SignOn people={device.people} onHere={setHere} />;
  const [site] = here.sites;
  if (!site) return <main className="screen"><Notice tone="ask" title="No site for this name"><p>Nobody gave {here.person.name} a role at a site yet. Whoever looks after people can.</p></Notice></main>;
  return <AtSite key={site.id} device={device} site={site} person={here.person} onLeave={() => { void device.people.leave().then(() => { setHere(undefined); }); }} />;
}

function AtSite({ device, site, person, onLeave }: { readonly device: Device; readonly site: NightSite; readonly person: Person; readonly onLeave: () => void }) {
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
  return <TabletProvider value={{ tablet, people: device.people, person, leave: onLeave }}><Inside /></TabletProvider>;
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
