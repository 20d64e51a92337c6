import { useCallback, useEffect, useState } from 'react';
import { systemClock } from '@bakehouse/offline';
import { Button, Notice, Screen, Stamp } from '../../ui';
import type { Device } from '../../shared/open-device';
import type { SignedOnHere } from '../../shared/people';
import { later } from '../../ui/later';
import { Enrol } from './enrol';
import { NameTiles } from './name-tiles';

/** What is timed here is heard by everybody in the shop, signed on or not. */
const RunningHere = later(() => import('./running-here').then((m) => m.RunningHere));

interface Props {
  readonly device: Device;
  readonly onHere: (here: Extract<SignedOnHere, { ok: true }>) => void;
}

/** Tap your name. */
export function Names({ device, onHere }: Props) {
  const { people } = device;
  const [list, setList] = useState(people.known);
  const reload = useCallback((): void => void people.load().then(setList), [people]);
  useEffect(reload, [reload]); // somebody may have joined or left since the page was loaded
  if (!list) return people.whichHouse ? <WhichHouse onRetry={reload} /> : <NoNamesYet onRetry={reload} />;
  return (
    <div className="sign-on">
      <Hall house={list.organisation.name} device={list.device?.name} />
      <div className="sign-on-side">
        {list.device ? <RunningHere device={device} /> : null}
        <Screen title={list.people.length === 0 ? 'Sign on' : 'Sign on: tap your name'}>
          <NameTiles people={people} list={list} onHere={onHere} />
          {list.device ? null : <Enrol onEnrolled={reload} />}
        </Screen>
      </div>
    </div>
  );
}

/** By the device’s own clock and zone: no site is known yet. */
const clockText = (): string => systemClock.now().toLocaleTimeString('en-GB', { hour: '2-digit', minute: '2-digit' });

/** Whose house this is, and what time, before anybody has said who they are. */
function Hall({ house, device }: { readonly house: string; readonly device: string | undefined }) {
  const [time, setTime] = useState(clockText);
  useEffect(() => {
    const handle = setInterval(() => setTime(clockText()), 5_000);
    return () => clearInterval(handle);
  }, []);
  return (
    <header className="hall">
      <Stamp name={house} />
      <time>{time}</time>
      <p className="hall-house">{house}</p>
      {device === undefined ? null : <p>{device}</p>}
    </header>
  );
}

function WhichHouse({ onRetry }: { readonly onRetry: () => void }) {
  return (
    <Screen title="Sign on">
      <Notice tone="ask" title="Which bakehouse?">
        <p>
          Several bakehouses use this service. Open the address of yours, which ends in “?house=” and its number: the person who set the
          bakehouse up was shown it. Or make this one of its tablets, with a code from its office.
        </p>
      </Notice>
      <Enrol onEnrolled={onRetry} />
    </Screen>
  );
}

function NoNamesYet({ onRetry }: { readonly onRetry: () => void }) {
  return (
    <Screen title="Sign on">
      <Notice tone="ask" title="The bakehouse’s computer cannot be reached">
        <p>
          This device was never enrolled as one of the bakehouse’s tablets, or met nobody yet, so it knows no names. It needs the network
          once.
        </p>
      </Notice>
      <div className="buttons">
        <Button look="go" onClick={onRetry}>
          Try again
        </Button>
      </div>
    </Screen>
  );
}
