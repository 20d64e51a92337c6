import { phrase, type TimerView } from '@bakehouse/domain';
import { Link } from 'wouter';
import { countdown, howLong, wallTime } from '../../shared/format';
import { useNow } from '../../shared/tablet-context';
import { subjectPath } from './paths';
import { useNight } from './use-night';

/** Everything that is in an oven, prover or retarder: named by product and deck, on every screen. */
export function Timers() {
  const { view: { timers }, zone } = useNight();
  const now = useNow(1_000);
  if (timers.length === 0) return null;
  return (
    <ul className="timers" aria-label="Running now">
      {timers.map((t) => <Timer key={`${t.subject} ${t.step}`} t={t} now={now} zone={zone} />)}
    </ul>
  );
}

function Timer({ t, now, zone }: { readonly t: TimerView; readonly now: string; readonly zone: string }) {
  const left = t.due === null ? undefined : countdown(t.due, now);
  const state = left?.over ? 'over' : t.due !== null && Date.parse(t.due) - Date.parse(now) < 120_000 ? 'soon' : 'running';
  const words = t.due === null ? `in for ${howLong(t.since, now)}` : left?.over ? `over since ${wallTime(t.due, zone)}` : '';
  return (
    <li className={`timer ${state}`}>
      <Link href={subjectPath(t.subjectSort, t.subject)}>
        <span className="timer-left" aria-hidden={left === undefined}>{left?.text ?? '—'}</span>
        <span className="timer-name">{t.name}</span>
        <span className="timer-where">{t.placeName ?? (t.step === 'bake' ? 'oven' : phrase(`stage.${t.step}`))}{words === '' ? '' : `, ${words}`}</span>
      </Link>
    </li>
  );
}
