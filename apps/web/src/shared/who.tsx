import { createContext, useCallback, useContext, useEffect, useMemo, useRef, useState, type ReactNode } from 'react';
import type * as z from 'zod';
import { ask, type Ask, type Reply } from './api';
import type { People, Person } from './people';
import { PinPad } from './pin-pad';

export type AskAs = <S extends z.ZodType>(path: string, schema: S, options?: Ask) => Promise<Reply<z.output<S>>>;
/** Does something in the name of whoever is signed on; where their PIN is needed, asks for it and does it again. */
type RunAs = <T>(once: (token: string | null | undefined) => Promise<Reply<T>>) => Promise<Reply<T>>;
interface Who {
  readonly people: People;
  readonly person: Person;
  readonly ask: AskAs;
  readonly run: RunAs;
}

const Context = createContext<Who | null>(null);
const wantsPin: ReadonlySet<string> = new Set(['pin-needed', 'not-signed-on', 'session-ended']);

/** Whoever is signed on. What needs their PIN asks for it here, once, and goes on by itself. */
export function WhoProvider({
  people,
  person,
  children,
}: {
  readonly people: People;
  readonly person: Person;
  readonly children: ReactNode;
}) {
  const [asking, setAsking] = useState<{ readonly answer: (given: boolean) => void }>();
  const [busy, setBusy] = useState(false);
  const [trouble, setTrouble] = useState<{ readonly title: string; readonly detail: string }>();
  const run = useCallback<RunAs>(
    async (once) => {
      const now = async () => once(await people.tokenFor(person.id).catch(() => undefined));
      const reply = await now();
      if (reply.as === 'problem' && reply.status === 401) people.tokenFailed(person.id);
      if (reply.as !== 'problem' || !wantsPin.has(reply.problem.problem)) return reply;
      const given = await new Promise<boolean>((answer) => setAsking({ answer }));
      return given ? now() : reply;
    },
    [people, person],
  );
  const askAs = useCallback<AskAs>((path, schema, options) => run((token) => ask(path, schema, { ...options, token })), [run]);
  const close = (given: boolean): void => {
    asking?.answer(given);
    setAsking(undefined);
    setTrouble(undefined);
    setBusy(false);
  };
  const drop = useRef(close);
  drop.current = close;
  useEffect(() => () => drop.current(false), [person.id]); // whoever comes next is not asked for the last one's PIN
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
  const value = useMemo(() => ({ people, person, ask: askAs, run }), [people, person, askAs, run]);
  return (
    <Context value={value}>
      {children}
      {asking ? (
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
