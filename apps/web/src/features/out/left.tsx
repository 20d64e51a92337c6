import { type LotOnHand, type ProductOnHand } from '@bakehouse/views';
import { Destroyed, OnHold, TroubleWord } from '../../shared/concerns';
import { whole } from '../../shared/format';
import { StateWord } from '../../ui';

/** How many are left, with what is wrong with that said: more went than there were, or nobody can say. */
export function Left({ left }: { readonly left: number | null }) {
  if (left === null) return <span>number not known: count them</span>;
  if (left >= 0) return <span>{whole(left)} left</span>;
  return (
    <StateWord shape="diamond" tone="bad">
      {`${whole(-left)} more went out than were counted: count again`}
    </StateWord>
  );
}

/** Whether a lot may leave, in a shape and a word. */
export function LotState({ lot }: { readonly lot: LotOnHand }) {
  if (lot.trouble !== null) return <TroubleWord trouble={lot.trouble} />;
  return (
    <>
      <Release of={lot.release} /> <TroubleWord trouble={lot.said} />
    </>
  );
}

function Release({ of }: { readonly of: LotOnHand['release'] }) {
  switch (of) {
    case 'released':
      return (
        <StateWord shape="disc" tone="good">
          released
        </StateWord>
      );
    case 'may-go':
      return (
        <StateWord shape="ring" tone="calm">
          ready to release
        </StateWord>
      );
    case 'destroyed':
      return <Destroyed />;
    case 'on-hold':
      return <OnHold />;
    case 'waits':
      return (
        <StateWord shape="diamond" tone="bad">
          waits
        </StateWord>
      );
  }
}

/** The lots of a product that may have gone when nobody picks by lot: those with pieces left that may leave, or else all of them. */
export function anyOf(product: ProductOnHand): string[] {
  const left = product.lots.filter((l) => l.left === null || l.left > 0);
  const free = left.filter((l) => l.release === 'released' && l.trouble === null);
  const lots = free.length > 0 ? free : left.length > 0 ? left : product.lots;
  return lots.map((l) => l.id);
}
