import { useState, type ReactNode } from 'react';
import { PinPad } from './pin-pad';
import { useTable } from './tablet-context';
import type { Trouble } from './trouble-of';

/** What is done with a PIN once it is typed; what stood against it, or nothing. */
type Work = (pin: string) => Promise<Trouble | undefined>;

export interface Pinned {
  /** Asks for the PIN of the person signed on, says why, and does this with it. Where something stands against it, the pad stays and says so. */
  readonly withPin: (says: string, work: Work) => void;
  readonly busy: boolean;
  /** Stands in the page while it is asked. */
  readonly pad: ReactNode;
}

/** A PIN for one thing: asked for each time, and forgotten as soon as that thing is done. */
export function usePinned(): Pinned {
  const { person } = useTable();
  const [wanted, setWanted] = useState<{ readonly says: string; readonly work: Work }>();
  const [busy, setBusy] = useState(false);
  const [trouble, setTrouble] = useState<Trouble>();
  const close = (): void => {
    setWanted(undefined);
    setTrouble(undefined);
  };
  const give = async (pin: string): Promise<void> => {
    if (!wanted) return;
    setBusy(true);
    const against = await wanted.work(pin);
    setBusy(false);
    if (against) setTrouble(against);
    else close();
  };
  const pad = wanted ? (
    <PinPad title={`${person.name}: sign`} busy={busy} trouble={trouble} onClose={close} onPin={(pin) => void give(pin)}>
      <p>{wanted.says}</p>
    </PinPad>
  ) : null;
  return { withPin: (says, work) => setWanted({ says, work }), busy, pad };
}
