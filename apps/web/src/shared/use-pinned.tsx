import { useState, type ReactNode } from 'react';
import { PinPad } from './pin-pad';
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

/** A PIN for one thing: asked for each time, and forgotten as soon as that thing is done. */
export function usePinPad(title: string): Pinned {
  const [wanted, setWanted] = useState<Wanted>();
  const [busy, setBusy] = useState(false);
  const [trouble, setTrouble] = useState<Trouble>();
  const close = (done: boolean): void => {
    wanted?.onClosed(done);
    setWanted(undefined);
    setTrouble(undefined);
    setBusy(false);
  };
  const give = async (pin: string): Promise<void> => {
    if (!wanted) return;
    setBusy(true);
    const against = await wanted.work(pin);
    if (!against) return close(true);
    setTrouble(against);
    setBusy(false);
  };
  const pad = wanted ? (
    <PinPad title={title} busy={busy} trouble={trouble} onClose={() => close(false)} onPin={(pin) => void give(pin)}>
      <p>{wanted.says}</p>
    </PinPad>
  ) : null;
  return { withPin: (says, work, onClosed = () => undefined) => setWanted({ says, work, onClosed }), drop: () => close(false), busy, pad };
}

/** The PIN of the person signed on, with which they sign. */
export function usePinned(): Pinned {
  const { person } = useTable();
  return usePinPad(`${person.name}: sign`);
}
