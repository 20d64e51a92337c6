import { isOnHold, type TimerView, type Whereabouts } from '@bakehouse/views';
import { Link } from 'wouter';
import { OnHold } from '../../../shared/concerns';
import { whole } from '../../../shared/format';
import { paths } from '../../../shared/night/paths';
import { Left } from './left';
import { timerPlace } from './use-timers';

/** What was made up and waits for an oven: in the prover or the retarder, or at the table still. */
export function Prover({ where: { proving }, timers }: { readonly where: Whereabouts; readonly timers: readonly TimerView[] }) {
  if (proving.length === 0) return <p className="nothing">Nothing made up.</p>;
  return (
    <div className="cabinet">
      {proving.map((r) => {
        const timer = timers.find((t) => t.subject === r.id);
        return (
          <Link key={r.id} href={paths.run(r.id)} className={`thing dough ${isOnHold(r) ? 'stopped' : ''}`}>
            <h3>
              {r.name}
              {r.loaded === 0 ? ` × ${whole(r.pieces)}` : `: ${whole(r.loaded)} of ${whole(r.pieces)} baked`}
            </h3>
            <p className="thing-where">{timer ? timerPlace(timer) : 'made up'}</p>
            {isOnHold(r) ? <OnHold /> : timer ? <Left timer={timer} /> : null}
          </Link>
        );
      })}
    </div>
  );
}
