import { StateWord } from '../../ui';
import type { Product } from '../../shared/contents-words';

/** Said with every answer about a product: some of what may be on the shelf is on hold. */
export function OnHoldDoNotSell({ of }: { readonly of: Product }) {
  if (!of.onHold) return null;
  return (
    <>
      {' '}
      <StateWord shape="gate" tone="bad">
        on hold, do not sell
      </StateWord>
    </>
  );
}
