import { useCallback, useEffect, useState } from 'react';
import type { People, Person, SignedOnHere } from '../../shared/people';
import { Button, Sheet } from '../../ui';
import { isIdle, touched } from './idle';
import { later } from '../../ui/later';
import { NameTiles } from './name-tiles';

/** A timer that rings is seen and made quiet in front of the question: nobody has to say who they are for that. */
const Ringing = later(() => import('../../features/night/ring/ringing-bar').then((m) => m.RingingBar));

interface Props {
  readonly people: People;
  readonly person: Person;
  readonly onHere: (here: Extract<SignedOnHere, { ok: true }>) => void;
}

/** After a while without a touch, asks for a sign-on in front of everything that is half typed. What is typed stays, no matter who answers. */
export function CarryOn({ people, person, onHere }: Props) {
  const [asking, setAsking] = useState(isIdle);
  useWatch(
    asking,
    useCallback(() => setAsking(true), []),
  );
  if (!asking) return null;
  const go = (): void => {
    touched();
    setAsking(false);
  };
  return (
    <Sheet title="Sign on" onClose={go} mustAnswer>
      <Ringing leads={false} />
      <p>Nobody touched this tablet for a while. What is typed still stands here, and timers run on.</p>
      <div className="buttons">
        <Button look="go" onClick={go}>
          Carry on as {person.name}
        </Button>
      </div>
      <p>Somebody else? Tap your name.</p>
      <NameTiles
        people={people}
        list={{ allShown: true, ...people.known, people: people.known?.people.filter((one) => one.id !== person.id) ?? [] }}
        onHere={(here) => {
          go();
          onHere(here);
        }}
      />
    </Sheet>
  );
}

/** Notes each touch, and looks now and then, and when the page is seen again, whether there was none for long. */
function useWatch(asking: boolean, onIdle: () => void): void {
  useEffect(() => {
    if (asking) return undefined;
    const check = (): void => {
      if (isIdle()) onIdle();
    };
    const touch = (event: Event): void => {
      if (!isIdle()) {
        touched();
        return;
      }
      // The first touch after so long is for the question, not for what lies under it.
      event.preventDefault();
      event.stopPropagation();
      onIdle();
    };
    const handle = setInterval(check, 10_000);
    document.addEventListener('visibilitychange', check);
    for (const kind of touches) window.addEventListener(kind, touch, { capture: true });
    return () => {
      clearInterval(handle);
      document.removeEventListener('visibilitychange', check);
      for (const kind of touches) window.removeEventListener(kind, touch, { capture: true });
    };
  }, [asking, onIdle]);
}
const touches = ['pointerdown', 'click', 'keydown'] as const;
