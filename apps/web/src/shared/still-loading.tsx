import { wallTime } from './format';
import { useTabletState } from './tablet-context';

/** That more may be on record than is shown. Stands wherever what is missing would read as “nothing is open”. */
export function StillLoading() {
  const { loading, asOf, site } = useTabletState();
  if (!loading) return null;
  return (
    <p className="loading still-loading" role="status">
      Still loading. {asOf === null ? 'Nothing is known here yet.' : `Shown is what was on record at ${wallTime(asOf, site.zone)}.`} There
      may be more that is open or on hold.
    </p>
  );
}
