import { isOnHold, type Whereabouts } from '@bakehouse/views';
import { Link } from 'wouter';
import { OnHold } from '../../../shared/concerns';
import { whole } from '../../../shared/format';
import { batchText } from '../../../shared/night/pieces-text';
import { paths } from '../../../shared/night/paths';
import { LinkButton } from '../../../ui';
import { BatchState } from '../batch-state';
import { MoreLoadedWord } from '../more-loaded';

/** Out of the oven: what is to be counted out, and what was counted out and may not leave yet. */
export function Rack({ where: { toCount, waiting } }: { readonly where: Whereabouts }) {
  if (toCount.length + waiting.length === 0) return <p className="nothing">Nothing out of the oven that waits.</p>;
  return (
    <div className="rungs">
      {toCount.map((r) => (
        <div key={r.id} className={`thing loaf ${isOnHold(r) ? 'stopped' : ''}`}>
          <Link href={paths.run(r.id)} className="thing-link">
            <h3>
              {r.name}: {whole(Math.min(r.loaded, r.pieces))} of {whole(r.pieces)} baked
            </h3>
          </Link>
          {isOnHold(r) ? <OnHold /> : null}
          {r.moreLoaded > 0 ? <MoreLoadedWord run={r} /> : null}
          <LinkButton to={paths.count(r.id)}>Count out</LinkButton>
        </div>
      ))}
      {waiting.map((b) => (
        <Link
          key={b.id}
          href={paths.batch(b.id)}
          className={`thing loaf ${b.release.state === 'on-hold' || b.release.state === 'released' ? 'stopped' : ''}`}
        >
          <h3>{batchText(b)}</h3>
          <p className="thing-where code">{b.code}</p>
          <BatchState b={b} />
        </Link>
      ))}
    </div>
  );
}
