import { Route, Switch, useLocation } from 'wouter';
import { paths } from '../../shared/night/paths';
import { Today } from '../../features/night/today';
import { Timers } from '../../features/night/timers';
import { office } from '../../shared/office-paths';
import { useTabletState } from '../../shared/tablet-context';
import { Always } from './always';
import { Places } from './places';
import { Damage, Strip } from './strip';
import { later } from '../../ui/later';

const Officer = later(() => import('../../features/inspection/officer').then((m) => m.Officer));
/** All that a shift goes through again and again comes in one piece, while the first screen is looked at. */
const NightScreens = later(() => import('./screens').then((m) => m.NightScreens));
/** Beside every screen, and not before the first one stands. */
const Ringing = later(() => import('../../features/night/ring/ringing-bar').then((m) => m.RingingBar));
const Beside = later(() => import('./beside').then((m) => m.Beside));

/** Two taps: the officer's page, and which time. */
const officer = '/table/officer';
const places = [
  [paths.today, 'Today'],
  [paths.start, 'Start'],
  [paths.goods, 'Goods in'],
  [paths.out, 'Send out'],
  [paths.open, 'Open lots'],
] as const;
const more = [
  [paths.recent, 'Recent entries'],
  [officer, 'Officer'],
  [office.home, 'Office'],
] as const;

/** Everything behind the names: the line on top and the timers stay, whatever screen is open. */
export function Inside() {
  const [location] = useLocation();
  const { site } = useTabletState();
  const here = [...places, ...more].find(([to]) => to !== paths.today && location.startsWith(to))?.[0] ?? paths.today;
  return (
    <div className="table-shell">
      <Always>
        <Strip>
          <Places of={places} more={more} here={here} />
        </Strip>
        <Damage />
        <Ringing leads />
        {/* On the first screen each stands where it is: in its oven, in the prover. */}
        {location === paths.today ? null : <Timers />}
      </Always>
      <Beside />
      <Switch>
        <Route path={officer}>
          <Officer site={site} back={{ to: paths.today, text: 'Today’s bake' }} />
        </Route>
        <Route path={paths.today}>
          <Today />
        </Route>
        <Route>
          <NightScreens />
        </Route>
      </Switch>
    </div>
  );
}
