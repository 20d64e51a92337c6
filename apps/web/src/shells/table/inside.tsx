import { Link, Route, Switch, useLocation } from 'wouter';
import { paths } from '../../shared/night/paths';
import { NightScreens } from './screens';
import { Timers } from '../../features/night/timers';
import { office } from '../../shared/office-paths';
import { useTabletState } from '../../shared/tablet-context';
import { Strip } from './strip';
import { Beside, Officer } from './later';

/** Two taps: the officer's page, and which time. */
const officer = '/table/officer';
const places = [
  [paths.today, 'Today'],
  [paths.start, 'Start'],
  [paths.open, 'Open lots'],
  [paths.goods, 'Goods in'],
  [paths.out, 'Send out'],
  [paths.recent, 'Recent entries'],
  [officer, 'Officer'],
  [office.home, 'Office'],
] as const;

/** Everything behind the names: the strip and the timers stay, whatever screen is open. */
export function Inside() {
  const [location] = useLocation();
  const { site } = useTabletState();
  const here = places.find(([to]) => to !== paths.today && location.startsWith(to))?.[0] ?? paths.today;
  return (
    <div className="table-shell">
      <div className="always">
        <Strip />
        <nav className="places" aria-label="Places">
          {places.map(([to, text]) => (
            <Link key={to} href={to} aria-current={to === here ? 'page' : undefined}>
              {text}
            </Link>
          ))}
        </nav>
        <Timers />
      </div>
      <Beside />
      <Switch>
        <Route path={officer}>
          <Officer site={site} back={{ to: paths.today, text: 'Today’s bake' }} />
        </Route>
        <Route>
          <NightScreens />
        </Route>
      </Switch>
    </div>
  );
}
