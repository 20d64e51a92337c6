import { Link, useLocation } from 'wouter';
import { paths } from '../../features/night/paths';
import { NightScreens } from '../../features/night/screens';
import { Timers } from '../../features/night/timers';
import { Strip } from './strip';

const places = [
  [paths.today, 'Today'], [paths.start, 'Start'], [paths.open, 'Open here'], [paths.porch, 'Porch'], [paths.recent, 'Lately'],
] as const;

/** Everything behind the names: the strip and the timers stay, whatever screen is open. */
export function Inside() {
  const [location] = useLocation();
  const here = places.find(([to]) => to !== paths.today && location.startsWith(to))?.[0] ?? paths.today;
  return (
    <div className="table-shell">
      <div className="always">
        <Strip />
        <nav className="places" aria-label="Places">
          {places.map(([to, text]) => <Link key={to} href={to} aria-current={to === here ? 'page' : undefined}>{text}</Link>)}
        </nav>
        <Timers />
      </div>
      <NightScreens />
    </div>
  );
}
