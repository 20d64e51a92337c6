import { useEffect, useState, type ReactNode } from 'react';
import { openDevice, type Device } from '../../shared/open-device';
import type { SignedOnHere } from '../../shared/people';
import { Notice } from '../../ui';
import { WhoProvider } from '../../shared/who';
import { touched } from './idle';
import { Names } from './names';
import { CarryOn } from './carry-on';

type Here = Extract<SignedOnHere, { ok: true }>;
type Opened = { readonly device: Device } | { readonly failed: string };
export interface AtDeviceProps {
  readonly device: Device;
  readonly here: Here;
  readonly onLeave: () => void;
  readonly onSite: (site: string) => void;
  /** They may do more or less than when they signed on. */
  readonly onAgain: (here: Here) => void;
}

/** This browser, with the person signed on: names to tap first. */
export function AtDevice({ children }: { readonly children: (at: AtDeviceProps) => ReactNode }) {
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
  if (!opened)
    return (
      <p className="loading" role="status">
        One moment…
      </p>
    );
  if ('failed' in opened) {
    return (
      <main className="screen">
        <Notice tone="bad" title="This browser keeps nothing for this page">
          <p>
            Records could not be saved on this tablet, so none are taken. Write them on paper for now. Leave private browsing, free some
            space, or use another browser; then load the page again.
          </p>
          <p className="faint">What the browser said: {opened.failed}</p>
        </Notice>
      </main>
    );
  }
  const { device } = opened;
  if (!here) {
    const onHere = (one: Here): void => {
      touched();
      setHere(one);
    };
    return <Names device={device} onHere={onHere} />;
  }
  const onLeave = (): void => {
    void device.people.leave().then(() => setHere(undefined));
  };
  const onSite = (site: string): void => {
    void device.people.choose(here.person.id, site).then((at) => {
      if (at.ok) setHere(at);
    });
  };
  return (
    <WhoProvider people={device.people} person={here.person}>
      {children({ device, here, onLeave, onSite, onAgain: setHere })}
      {device.people.known?.device ? <CarryOn people={device.people} person={here.person} onHere={setHere} /> : null}
    </WhoProvider>
  );
}
