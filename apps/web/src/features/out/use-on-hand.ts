import { onHandOf, type ProductOnHand } from '@bakehouse/views';
import { useMemo } from 'react';
import { useNight, type Night } from '../../shared/night/use-night';

/** What there is to send out, with everything that this tablet saved. */
export function useOnHand(): { readonly night: Night; readonly products: readonly ProductOnHand[]; readonly leftOut: number } {
  const night = useNight();
  return { night, products: useMemo(() => onHandOf(night.lookup), [night.lookup]), leftOut: night.state.leftOut };
}
