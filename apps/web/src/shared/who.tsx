import { asking, inNameOf, type As, type Ask } from '@bakehouse/api-client';
import { createContext, useCallback, useContext, useEffect, useMemo, useRef, type ReactNode } from 'react';
import { oneQuestion } from './one-question';
import type { People, Person } from './people';
import type { Trouble } from './trouble-of';
import { usePinPad } from './use-pinned';

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
  const { withPin, drop, pad } = usePinPad(`${person.name}: your PIN`, person.name, async (pin, newPin) => {
    const signedOn = await people.withOwnPin(person.id, pin, newPin);
    return signedOn.ok ? undefined : signedOn.problem;
  });
  const asked = useRef({ withPin, drop });
  asked.current = { withPin, drop };
  const question = useMemo(() => oneQuestion<boolean>(), []);
  const as = useCallback<As>(
    async (once) => {
      const now = inNameOf(people, person.id);
      const before = people.isProven(person.id);
      const reply = await now(once);
      if (reply.as !== 'problem' || !wantsPin.has(reply.problem.problem)) return reply;
      if (!before && people.isProven(person.id)) return now(once); // given meanwhile, for something else on the page
      const prove = async (pin: string): Promise<Trouble | undefined> => {
        const signedOn = await people.withPin(person.id, pin);
        return signedOn.ok ? undefined : signedOn.problem;
      };
      const given = await question(
        () => new Promise<boolean>((answer) => asked.current.withPin('This needs more than a tapped name.', prove, answer)),
      );
      return given ? now(once) : reply;
    },
    [people, person, question],
  );
  useEffect(() => () => asked.current.drop(), [person.id]); // the next person is not asked for the last one's PIN
  const value = useMemo(
    () => ({ people, person, as, ask: asking({ as }), askPatiently: asking({ as, timeoutMs: 60_000 }) }),
    [people, person, as],
  );
  return (
    <Context value={value}>
      {children}
      {pad}
    </Context>
  );
}

export function useWho(): Who {
  const held = useContext(Context);
  if (!held) throw new Error('nobody is signed on above this');
  return held;
}
