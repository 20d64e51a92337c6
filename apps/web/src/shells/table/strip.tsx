import { useEffect, useState, type ReactNode } from 'react';
import { Link, useLocation } from 'wouter';
import { paths } from '../../shared/night/paths';
import { wallTime, whole } from '../../shared/format';
import { useNow, useTable, useTabletState } from '../../shared/tablet-context';
import { Stamp, StateWord } from '../../ui';
import { BakeDay } from './bake-day';
import { onNewVersion, takeNewVersion } from '../../shared/worker';

/** One line that stays: whose house it is and what time, the ways in, how things stand between this device and the bakehouse’s computer, who is signed on. */
export function Strip({ children }: { readonly children: ReactNode }) {
  const { person, leave, tablet, people } = useTable();
  const [location, go] = useLocation();
  const {
    connected,
    pending,
    refused,
    site: { zone, name },
    asOf,
    needsSignOn,
    snapshot,
  } = useTabletState();
  const now = useNow(5_000);
  const [newer, setNewer] = useState(false);
  useEffect(() => onNewVersion(() => setNewer(true)), []);
  const others = needsSignOn.filter((id) => id !== person.id).map((id) => snapshot.person.find((p) => p.id === id)?.name ?? 'somebody');
  return (
    <header className="bar strip">
      <div className="strip-place">
        <Stamp name={people.known?.organisation.name ?? name} />
        <time>{wallTime(now, zone)}</time>
        <BakeDay />
      </div>
      {children}
      <p className="strip-state" role="status">
        <SentState connected={connected} pending={pending.length} />
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
        onClick={() => {
          // At the table the next person begins with the first screen, not in the middle of what the last one did.
          if (location.startsWith(paths.today)) go(paths.today);
          leave();
        }}
        aria-label={`${person.name} is signed on. Sign on as somebody else`}
      >
        {person.name}
      </button>
    </header>
  );
}

function SentState({ connected, pending }: { readonly connected: boolean | null; readonly pending: number }) {
  const sent = pending === 0 ? (connected === false ? 'nothing waits here' : 'all sent') : `${whole(pending)} waiting to be sent`;
  if (connected === true && pending === 0)
    return (
      <StateWord shape="disc" tone="good">
        {sent}
      </StateWord>
    );
  return (
    <>
      <StateWord shape={connected === false ? 'bar' : 'ring'} tone={connected === false ? 'ask' : 'calm'}>
        {connected === false ? 'off line' : connected ? 'connected' : 'connecting'}
      </StateWord>
      <span>{sent}</span>
    </>
  );
}

/** That this device lost something that it had taken: nothing is louder. */
export function Damage() {
  const { damage } = useTabletState();
  if (damage.length === 0) return null;
  return (
    <p className="strip-damage" role="alert">
      This tablet’s store does not hold what was put in:{' '}
      {damage.map((d) => `${whole(d.records)} ${d.what.replaceAll('-', ' ')}`).join(', ')}. Nothing was deleted. Tell the person who looks
      after the tablet before it is used again.
    </p>
  );
}
