import { isOnHold, type MakeView, type TimerView, type Whereabouts } from '@bakehouse/views';
import { Link } from 'wouter';
import { OnHold } from '../../../shared/concerns';
import { mass, wallTime, whole } from '../../../shared/format';
import { paths } from '../../../shared/night/paths';
import type { Night } from '../../../shared/night/use-night';
import { Left } from './left';

interface Props {
  readonly where: Whereabouts;
  readonly night: Night;
  readonly timers: readonly TimerView[];
}

/** What was begun and is not made up yet. */
export function Table({ where: { table }, night, timers }: Props) {
  if (table.length === 0) return <p className="nothing">Nothing begun. “Start” begins a dough, a preferment or a filling.</p>;
  return table.map((m) => {
    const timer = timers.find((t) => t.subject === m.id);
    return (
      <Link key={m.id} href={paths.make(m.id)} className={`thing dough ${isOnHold(m) ? 'stopped' : ''}`}>
        <h3>{m.name}</h3>
        <p className="thing-where">
          {stageOf(m)} · begun {wallTime(m.at, night.zone)} · {mass(m.inMg === 0 ? m.plannedMg : m.inMg)}
        </p>
        {isOnHold(m) ? <OnHold /> : timer ? <Left timer={timer} /> : null}
      </Link>
    );
  });
}

function stageOf(m: MakeView): string {
  if (m.mixed) return 'mixed';
  return m.lines.length > 0 ? `${whole(m.lines.length)} ${m.lines.length === 1 ? 'line' : 'lines'} in` : 'nothing in yet';
}
