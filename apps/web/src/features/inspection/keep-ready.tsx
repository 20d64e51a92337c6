import { inspectionView } from '@bakehouse/contracts';
import { daysAfter, siteDay } from '@bakehouse/kernel';
import { systemClock } from '@bakehouse/offline';
import { useEffect } from 'react';
import { keepForOfficer, type Span } from '../../shared/officer-copies';
import { useTabletState } from '../../shared/tablet-context';
import { useWho } from '../../shared/who';

const everyMs = 60 * 60_000;

/** Keeps what an officer would be shown on this device, fetched anew every hour: officers come when the network is gone, too. */
export function KeepReady() {
  const { site, connected } = useTabletState();
  const { askPatiently } = useWho();
  useEffect(() => {
    if (connected !== true) return undefined;
    const fetchOne = async (span: Span): Promise<void> => {
      const today = siteDay(systemClock.now().toISOString(), site);
      const reply = await askPatiently('get', '/sites/{site}/inspection', inspectionView, {
        params: { path: { site: site.id }, query: { from: span === 'today' ? today : daysAfter(today, -30), until: today } },
      });
      if (reply.as === 'ok') await keepForOfficer(site.id, span, reply.value);
    };
    const fetchAll = (): void => void fetchOne('today').then(() => fetchOne('month'));
    const first = setTimeout(fetchAll, 60_000); // not while somebody waits for the first screen
    const handle = setInterval(fetchAll, everyMs);
    return () => {
      clearTimeout(first);
      clearInterval(handle);
    };
  }, [connected, site, askPatiently]);
  return null;
}
