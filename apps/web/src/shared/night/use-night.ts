import { lookupOf, nightView, type Lookup, type NightView } from '@bakehouse/views';
import type { TabletState } from '@bakehouse/offline';
import { useMemo } from 'react';
import { useNow, useTabletState } from '../tablet-context';

export interface Night {
  readonly view: NightView;
  readonly lookup: Lookup;
  readonly state: TabletState;
  readonly now: string;
  readonly zone: string;
  readonly day: string;
}

/** Today's bake as it stands with everything that this tablet saved. */
export function useNight(): Night {
  const state = useTabletState();
  const now = useNow(10_000);
  const {
    site: { zone },
    day,
    snapshot,
  } = state;
  return useMemo(() => {
    const at = latestOf(now, state);
    return {
      view: nightView(snapshot, { bakeDay: day, at, zone, site: state.site.id }),
      lookup: lookupOf(snapshot, at, zone, state.site.id),
      state,
      now: at,
      zone,
      day,
    };
  }, [state, snapshot, now, zone, day]);
}

/** Now, or the moment of what was saved last: a row of this second must not stand in the future of a screen that ticks every ten. */
function latestOf(now: string, state: TabletState): string {
  const [last] = state.recent;
  return last && last.savedAt > now ? last.savedAt : now;
}
