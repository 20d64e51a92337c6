import type { PeopleToSignOn } from '@bakehouse/contracts';
import { useState } from 'react';
import type { Named, People, SignedOnHere } from '../../shared/people';
import { TroubleNotice } from '../../shared/trouble-notice';
import { Button, Field, Sheet, Tile, Tiles } from '../../ui';
import { SignOnPad } from './sign-on-pad';

type One = PeopleToSignOn['people'][number];
interface Props {
  readonly people: People;
  readonly list: Pick<PeopleToSignOn, 'people' | 'allShown'>;
  readonly onHere: (here: Extract<SignedOnHere, { ok: true }>) => void;
}

/** The names to tap, and one's own to type where it is not shown. Where a tap is not enough, a PIN. */
export function NameTiles({ people, list, onHere }: Props) {
  const [trouble, setTrouble] = useState<{ readonly title: string; readonly detail: string }>();
  const [asking, setAsking] = useState<{ readonly who: string | Named; readonly name: string }>();
  const [busy, setBusy] = useState(false);
  const take = (answer: SignedOnHere): void => {
    setBusy(false);
    if (answer.ok) onHere(answer);
    else setTrouble(answer.problem);
  };
  const tap = (one: One): void => {
    setTrouble(undefined);
    if (!one.tap) {
      setAsking({ who: one.id, name: one.name ?? 'PIN' });
      return;
    }
    setBusy(true);
    void people.tap(one.id).then(take);
  };
  return (
    <>
      {asking ? null : <TroubleNotice of={trouble} />}
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
      {list.allShown ? null : <TypedName alone={list.people.length === 0} onName={(name) => setAsking({ who: { name }, name })} />}
      {asking ? (
        <SignOnPad
          name={asking.name}
          trouble={trouble}
          busy={busy}
          onClose={() => {
            setAsking(undefined);
            setTrouble(undefined);
          }}
          onPins={(pin, newPin) => {
            setTrouble(undefined);
            setBusy(true);
            void (newPin === undefined ? people.withPin(asking.who, pin) : people.withOwnPin(asking.who, pin, newPin)).then(take);
          }}
        />
      ) : null}
    </>
  );
}

/** Names are not shown to every device that reaches the house’s address: only to its tablets, and those that signed on here before. */
function TypedName({ alone, onName }: { readonly alone: boolean; readonly onName: (name: string) => void }) {
  const [open, setOpen] = useState(false);
  const [name, setName] = useState('');
  const give = (): void => {
    setOpen(false);
    onName(name.trim());
  };
  if (!open) {
    return (
      <div className="buttons">
        <Button onClick={() => setOpen(true)}>{alone ? 'Type my name' : 'My name is not here'}</Button>
      </div>
    );
  }
  return (
    <Sheet title="Your name" onClose={() => setOpen(false)}>
      <p>This is not one of the bakehouse’s tablets. Once you have signed on here, your name is here to tap.</p>
      <Field label="Your whole name, as the bakehouse writes it" value={name} onChange={setName} maxLength={120} />
      <div className="buttons">
        <Button look="go" disabled={name.trim() === ''} onClick={give}>
          Go on
        </Button>
      </div>
    </Sheet>
  );
}
