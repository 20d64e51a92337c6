import type { PeopleToSignOn } from '@bakehouse/contracts';
import { useState } from 'react';
import type { People, SignedOnHere } from '../../shared/people';
import { Tile, Tiles } from '../../shared/ui';
import { SignOnPad } from './sign-on-pad';
import { TroubleNotice } from '../../shared/trouble-notice';

type One = PeopleToSignOn['people'][number];
interface Props {
  readonly people: People;
  readonly list: readonly One[];
  readonly onHere: (here: Extract<SignedOnHere, { ok: true }>) => void;
}

/** The names to tap. Where a tap is not enough, a PIN. */
export function NameTiles({ people, list, onHere }: Props) {
  const [trouble, setTrouble] = useState<{ readonly title: string; readonly detail: string }>();
  const [asking, setAsking] = useState<One>();
  const [busy, setBusy] = useState(false);
  const take = (answer: SignedOnHere): void => {
    setBusy(false);
    if (answer.ok) onHere(answer);
    else setTrouble(answer.problem);
  };
  const tap = (one: One): void => {
    setTrouble(undefined);
    if (!one.tap) {
      setAsking(one);
      return;
    }
    setBusy(true);
    void people.tap(one.id).then(take);
  };
  return (
    <>
      {asking ? null : <TroubleNotice of={trouble} />}
      <Tiles label="Names">
        {list.map((one) => (
          <Tile
            key={one.id}
            title={one.name ?? 'no name'}
            detail={one.tap ? undefined : 'with PIN'}
            disabled={busy}
            onClick={() => tap(one)}
          />
        ))}
      </Tiles>
      {asking ? (
        <SignOnPad
          name={asking.name ?? 'PIN'}
          trouble={trouble}
          busy={busy}
          onClose={() => {
            setAsking(undefined);
            setTrouble(undefined);
          }}
          onPins={(pin, newPin) => {
            setTrouble(undefined);
            setBusy(true);
            void (newPin === undefined ? people.withPin(asking.id, pin) : people.withOwnPin(asking.id, pin, newPin)).then(take);
          }}
        />
      ) : null}
    </>
  );
}
