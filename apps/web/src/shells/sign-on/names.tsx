import type { PeopleToSignOn } from '@bakehouse/contracts';
import { useState } from 'react';
import { Button, Notice, Screen, Tile, Tiles } from '../../shared/ui';
import type { People, SignedOnHere } from '../../shared/people';
import { Enrol } from './enrol';
import { PinPad } from '../../shared/pin-pad';

type One = PeopleToSignOn['people'][number];

interface Props {
  readonly people: People;
  readonly onHere: (here: Extract<SignedOnHere, { ok: true }>) => void;
}

/** Tap your name. Where a tap is not enough, a PIN. */
export function Names({ people, onHere }: Props) {
  const [list, setList] = useState(people.known);
  const [trouble, setTrouble] = useState<{ readonly title: string; readonly detail: string }>();
  const [asking, setAsking] = useState<One>();
  const [busy, setBusy] = useState(false);
  const take = (answer: SignedOnHere): void => {
    setBusy(false);
    if (answer.ok) onHere(answer);
    else setTrouble(answer.problem);
  };
  const reload = (): void => void people.load().then(setList);
  const tap = (one: One): void => {
    setTrouble(undefined);
    if (!one.tap) {
      setAsking(one);
      return;
    }
    setBusy(true);
    void people.tap(one.id).then(take);
  };
  if (!list) return <NoNamesYet onRetry={reload} />;
  return (
    <>
      <p className="house">
        <img src="/icon.svg" alt="" />
        {list.organisation.name}
        {list.device ? <span>{list.device.name}</span> : null}
      </p>
      <Screen title="Who is here? Tap your name">
        {trouble ? (
          <Notice tone="bad" title={trouble.title}>
            <p>{trouble.detail}</p>
          </Notice>
        ) : null}
        <Tiles label="Names">
          {list.people.map((one) => (
            <Tile
              key={one.id}
              title={one.name ?? 'no name'}
              detail={one.tap ? undefined : 'with PIN'}
              disabled={busy}
              onClick={() => tap(one)}
            />
          ))}
        </Tiles>
        {list.device ? null : <Enrol onEnrolled={reload} />}
        {asking ? (
          <PinPad
            title={asking.name ?? 'PIN'}
            trouble={trouble}
            onClose={() => {
              setAsking(undefined);
              setTrouble(undefined);
            }}
            onPin={(pin) => {
              setTrouble(undefined);
              setBusy(true);
              void people.withPin(asking.id, pin).then(take);
            }}
            busy={busy}
          />
        ) : null}
      </Screen>
    </>
  );
}

function NoNamesYet({ onRetry }: { readonly onRetry: () => void }) {
  return (
    <Screen title="Who is here?">
      <Notice tone="ask" title="The bakehouse’s computer cannot be reached">
        <p>This tablet has not been used here before, so it knows no names yet. It needs the network once.</p>
      </Notice>
      <div className="buttons">
        <Button look="go" onClick={onRetry}>
          Try again
        </Button>
      </div>
    </Screen>
  );
}
