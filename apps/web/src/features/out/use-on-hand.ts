import { onHandOf, type ProductOnHand } from '@bakehouse/views';
import { useMemo } from 'react';
import { useNight, type Night } from '../../shared/night/use-night';

interface OnHand {
  readonly night: Night;
  readonly products: readonly ProductOnHand[];
  /** The same with those lots alone that are told of here. */
  readonly here: readonly ProductOnHand[];
  readonly leftOut: number;
}

/** What there is to send out, with everything that this tablet saved. */
export function useOnHand(): OnHand {
  const night = useNight();
  const products = useMemo(() => onHandOf(night.lookup), [night.lookup]);
  const here = useMemo(() => products.flatMap(hereOf), [products]);
  return { night, products, here, leftOut: night.state.leftOut };
}

function hereOf(product: ProductOnHand): ProductOnHand[] {
  const lots = product.lots.filter((l) => l.here);
  return lots.length === 0 ? [] : [{ ...product, lots }];
}
