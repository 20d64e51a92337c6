import type { TimerView } from '@bakehouse/views';
import { useEffect, useState } from 'react';
import { howLong } from '../../../shared/format';
import { subjectPath } from '../../../shared/night/paths';
import { madeQuiet, setRinging, useRinging, type Ring } from '../../../shared/ringing';
import { useNow } from '../../../shared/tablet-context';
import { Button, Notice } from '../../../ui';
import { timerPlace, useTimers } from '../house/use-timers';
import { readyToRing, ring } from './bell';
import { ringsNow } from './rings-now';
import { useScreenAwake } from './screen-awake';

const everyMs = 2_500;
const saidKey = 'what timers cannot do here, as said';

/** Rings for what is over, by what it is and where, or by where alone, keeps the screen on while something is timed, and says once what this device cannot do of it. */
export function Rings({ named = true }: { readonly named?: boolean }) {
  const timers = useTimers();
  const now = useNow(1_000);
  const rings = ringsNow(timers, now);
  const quiet = madeQuiet();
  const loud = rings.filter((t) => !quiet.has(idOf(t)));
  const ids = loud.map(idOf).join(' ');
  useEffect(() => {
    setRinging(loud.map((t) => asRing(t, now, named)));
  }, [ids, now, named]);
  useEffect(() => () => setRinging([]), []);
  const sounding = useRinging().length > 0;
  useEffect(() => {
    if (!sounding) return undefined;
    ring();
    const handle = setInterval(ring, everyMs);
    return () => clearInterval(handle);
  }, [sounding]);
  const timed = timers.some((t) => t.due !== null && (t.due > now || rings.includes(t)));
  const awake = useScreenAwake(timed);
  useReadyByTouch(timed);
  return timed ? <CannotBeHad awake={awake} /> : null;
}

const idOf = (t: TimerView): string => `${t.subject} ${t.step} ${t.due ?? ''}`;
const asRing = (t: TimerView, now: string, named: boolean): Ring => ({
  id: idOf(t),
  to: subjectPath(t.subjectType, t.subject),
  ...(named ? { name: t.name ?? '', where: timerPlace(t) } : { name: timerPlace(t), where: '' }),
  over: t.due === null ? '' : howLong(t.due, now),
});

/** Any touch makes the sound ready: a timer that is over later is then heard. */
function useReadyByTouch(timed: boolean): void {
  useEffect(() => {
    if (!timed) return undefined;
    const touch = (): void => void readyToRing();
    touch();
    window.addEventListener('pointerdown', touch, { capture: true });
    return () => window.removeEventListener('pointerdown', touch, { capture: true });
  }, [timed]);
}

function CannotBeHad({ awake }: { readonly awake: boolean }) {
  const missing = [
    typeof AudioContext === 'undefined' ? 'It makes no sound: look at the timers now and then.' : null,
    'vibrate' in navigator ? null : 'It does not shake.',
    awake ? null : 'It does not keep its screen on for timers: set it so that it does not go dark, or a timer rings late.',
  ].filter((one) => one !== null);
  const [said, setSaid] = useState(() => localStorage.getItem(saidKey) ?? '');
  const text = missing.join(' ');
  if (text === '' || text === said) return null;
  return (
    <Notice tone="ask" title="What this tablet cannot do for timers">
      <p>{text}</p>
      <div className="buttons">
        <Button
          onClick={() => {
            localStorage.setItem(saidKey, text);
            setSaid(text);
          }}
        >
          Understood
        </Button>
      </div>
    </Notice>
  );
}
