import { useEffect, useState } from 'react';
import { Link } from 'wouter';
import { paths } from '../../shared/night/paths';
import { wallTime, whole } from '../../shared/format';
import { useNow, useTable, useTabletState } from '../../shared/tablet-context';
import { StateWord } from '../../shared/ui';
import { BakeDay } from './bake-day';
import { onNewVersion, takeNewVersion } from '../../shared/worker';

/** How things stand between this tablet and the bakehouse's computer, in words: always in sight, never in the way. */
export function Strip() {
  const { person, leave, tablet } = useTable();
  const {
    connected,
    pending,
    refused,
    site: { zone, name },
    asOf,
    needsSignOn,
    damage,
    snapshot,
  } = useTabletState();
  const now = useNow(5_000);
  const [newer, setNewer] = useState(false);
  useEffect(() => onNewVersion(() => setNewer(true)), []);
  const others = needsSignOn.filter((id) => id !== person.id).map((id) => snapshot.person.find((p) => p.id === id)?.name ?? 'somebody');
  return (
    <header className="strip">
      <div className="strip-place">
        <strong>{name}</strong> <BakeDay /> <time>{wallTime(now, zone)}</time>
      </div>
      <p className="strip-state" role="status">
        {connected === false ? (
          <StateWord shape="bar" tone="ask">
            not connected
          </StateWord>
        ) : (
          <StateWord shape="disc" tone="good">
            {connected === null ? 'connecting' : 'connected'}
          </StateWord>
        )}
        {pending.length === 0 ? <span>all sent</span> : <span>{whole(pending.length)} waiting to be sent</span>}
        {refused.length === 0 ? null : (
          <Link href={paths.recent} className="strip-alert">
            {whole(refused.length)} to look at
          </Link>
        )}
        {needsSignOn.includes(person.id) ? <span>sign on again to send</span> : null}
        {others.length === 0 ? null : <span>waits for {others.join(', ')} to sign on</span>}
        {asOf === null ? null : (
          <button type="button" className="quiet-link" onClick={() => void tablet.refresh()}>
            as of {wallTime(asOf, zone)}
          </button>
        )}
        {newer ? (
          <button type="button" className="button plain" onClick={takeNewVersion}>
            New version: load it
          </button>
        ) : null}
      </p>
      <button
        type="button"
        className="button plain who"
        onClick={leave}
        aria-label={`${person.name} is signed on. Sign on as somebody else`}
      >
        {person.name}
      </button>
      {damage.length === 0 ? null : (
        <p className="strip-damage" role="alert">
          This tablet’s store does not hold what was put in:{' '}
          {damage.map((d) => `${whole(d.records)} ${d.what.replaceAll('-', ' ')}`).join(', ')}. Nothing was deleted. Tell the person who
          looks after the tablet before it is used again.
        </p>
      )}
    </header>
  );
}
