import type { TimerView } from '@bakehouse/views';
import { Link } from 'wouter';
import { countdown, howLong } from '../../shared/format';
import { useNow } from '../../shared/tablet-context';
import { subjectPath } from '../../shared/night/paths';
import { timerPlace, useTimers } from './house/use-timers';

/** Everything that is in an oven, prover or retarder: named by product and deck, on every screen. */
export function Timers() {
  const timers = useTimers();
  const now = useNow(1_000);
  if (timers.length === 0) return null;
  return (
    <ul className="timers" aria-label="Running now">
      {timers.map((t) => (
        <Timer key={`${t.subject} ${t.step}`} t={t} now={now} />
      ))}
    </ul>
  );
}

function Timer({ t, now }: { readonly t: TimerView; readonly now: string }) {
  const left = t.due === null ? undefined : countdown(t.due, now);
  const state = left?.over ? 'over' : t.due !== null && Date.parse(t.due) - Date.parse(now) < 120_000 ? 'soon' : 'running';
  const words = t.due === null ? `in for ${howLong(t.since, now)}` : left?.over ? 'over' : '';
  return (
    <li className={`timer ${state}`}>
      <Link href={subjectPath(t.subjectType, t.subject)}>
        <span className="timer-left" aria-hidden={left === undefined}>
          {left?.text ?? '—'}
        </span>
        <span className="timer-name">{t.name}</span>
        <span className="timer-where">
          {timerPlace(t)}
          {words === '' ? '' : `, ${words}`}
        </span>
      </Link>
    </li>
  );
}
