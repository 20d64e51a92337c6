import { asking, inNameOf, type As, type Ask } from '@bakehouse/api-client';
import { createContext, useCallback, useContext, useEffect, useMemo, useRef, useState, type ReactNode } from 'react';
import type { People, Person } from './people';
import { PinPad } from './pin-pad';

interface Who {
  readonly people: People;
  readonly person: Person;
  /** In the name of the person signed on; where their PIN is needed, it is asked for and what was wanted done again. */
  readonly as: As;
  readonly ask: Ask;
  /** The same for what takes long: a file, a whole recall. */
  readonly askPatiently: Ask;
}

const Context = createContext<Who | null>(null);
const wantsPin: ReadonlySet<string> = new Set(['pin-needed', 'not-signed-on', 'session-ended']);

/** The person signed on. What needs their PIN asks for it here, once, and goes on by itself. */
export function WhoProvider({
  people,
  person,
  children,
}: {
  readonly people: People;
  readonly person: Person;
  readonly children: ReactNode;
}) {
  const [awaited, setAwaited] = useState<{ readonly answer: (given: boolean) => void }>();
  const [busy, setBusy] = useState(false);
  const [trouble, setTrouble] = useState<{ readonly title: string; readonly detail: string }>();
  const as = useCallback<As>(
    async (once) => {
      const now = inNameOf(people, person.id);
      const reply = await now(once);
      if (reply.as !== 'problem' || !wantsPin.has(reply.problem.problem)) return reply;
      const given = await new Promise<boolean>((answer) => setAwaited({ answer }));
      return given ? now(once) : reply;
    },
    [people, person],
  );
  const close = (given: boolean): void => {
    awaited?.answer(given);
    setAwaited(undefined);
    setTrouble(undefined);
    setBusy(false);
  };
  const drop = useRef(close);
  drop.current = close;
  useEffect(() => () => drop.current(false), [person.id]); // the next person is not asked for the last one's PIN
  const give = async (pin: string): Promise<void> => {
    setBusy(true);
    const signedOn = await people.withPin(person.id, pin);
    if (signedOn.ok) {
      close(true);
      return;
    }
    setTrouble(signedOn.problem);
    setBusy(false);
  };
  const value = useMemo(
    () => ({ people, person, as, ask: asking({ as }), askPatiently: asking({ as, timeoutMs: 60_000 }) }),
    [people, person, as],
  );
  return (
    <Context value={value}>
      {children}
      {awaited ? (
        <PinPad
          title={`${person.name}: your PIN`}
          busy={busy}
          trouble={trouble}
          onClose={() => close(false)}
          onPin={(pin) => void give(pin)}
        >
          <p>This needs more than a tapped name.</p>
        </PinPad>
      ) : null}
    </Context>
  );
}

export function useWho(): Who {
  const held = useContext(Context);
  if (!held) throw new Error('nobody is signed on above this');
  return held;
}
