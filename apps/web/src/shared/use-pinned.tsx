import { asking, inNameOf } from '@bakehouse/api-client';
import { useState, type ReactNode } from 'react';
import { OwnPinPad, wantsAnotherPin } from './own-pin-pad';
import { PinPad } from './pin-pad';
import { setPin } from './set-pin';
import { useTable } from './tablet-context';
import type { Trouble } from './trouble-of';

/** What is done with a PIN once it is typed; what stood against it, or nothing. */
type Work = (pin: string) => Promise<Trouble | undefined>;
interface Wanted {
  readonly says: string;
  readonly work: Work;
  readonly onClosed: (done: boolean) => void;
}

export interface Pinned {
  /**
   * Asks for the PIN, says why, and does this with it. Where something stands against it, the pad stays and says so. `onClosed` is told whether it was done
   * or the pad was closed without.
   */
  readonly withPin: (says: string, work: Work, onClosed?: (done: boolean) => void) => void;
  /** Closes the pad, undone. */
  readonly drop: () => void;
  readonly busy: boolean;
  /** Stands in the page while it is asked. */
  readonly pad: ReactNode;
}

/**
 * A PIN for one thing: asked for each time, and forgotten as soon as that thing is done. One that was given to them, or is too short for it, they change here
 * and go on with the new one.
 */
export function usePinPad(title: string, name: string, change: (pin: string, newPin: string) => Promise<Trouble | undefined>): Pinned {
  const [wanted, setWanted] = useState<Wanted>();
  const [busy, setBusy] = useState(false);
  const [trouble, setTrouble] = useState<Trouble>();
  const [toChange, setToChange] = useState<string>();
  const close = (done: boolean): void => {
    wanted?.onClosed(done);
    setWanted(undefined);
    setTrouble(undefined);
    setToChange(undefined);
    setBusy(false);
  };
  const give = async (pin: string): Promise<void> => {
    if (!wanted) return;
    setBusy(true);
    const against = await wanted.work(pin);
    if (!against) return close(true);
    if (wantsAnotherPin.has(against.problem ?? '')) setToChange(pin);
    setTrouble(against);
    setBusy(false);
  };
  const changed = async (pin: string, newPin: string): Promise<void> => {
    setBusy(true);
    const against = await change(pin, newPin);
    setTrouble(against);
    setBusy(false);
    if (against) return;
    setToChange(undefined);
    await give(newPin);
  };
  const asked = wanted ? (
    <PinPad title={title} busy={busy} trouble={trouble} onClose={() => close(false)} onPin={(pin) => void give(pin)}>
      <p>{wanted.says}</p>
    </PinPad>
  ) : null;
  const pad =
    wanted && toChange !== undefined ? (
      <OwnPinPad
        name={name}
        has={toChange}
        busy={busy}
        trouble={trouble}
        onClose={() => close(false)}
        onPins={(pin, newPin) => void changed(pin, newPin)}
      />
    ) : (
      asked
    );
  return { withPin: (says, work, onClosed = () => undefined) => setWanted({ says, work, onClosed }), drop: () => close(false), busy, pad };
}

/** The PIN of the person signed on, with which they sign. */
export function usePinned(): Pinned {
  const { person, people } = useTable();
  const ask = asking({ as: inNameOf(people, person.id) });
  return usePinPad(`${person.name}: sign`, person.name, (pin, newPin) => setPin(ask, person.id, newPin, pin));
}
