import { keptFrom, type LotOnHand, type ProductOnHand } from '@bakehouse/views';
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

/** How many of a product may go, and apart from that how many more are here and may not. */
export function LeftOf({ product: { left, lots, onHold, pastDate } }: { readonly product: ProductOnHand }) {
  const accepted = lots.reduce((sum, l) => sum + (l.accepted?.mayLeave ?? 0), 0);
  return (
    <>
      <Left left={left} />{' '}
      {onHold === 0 ? null : (
        <StateWord shape="gate" tone="bad">
          {onHold === null
            ? 'others on hold'
            : `${whole(onHold)} more on hold${accepted === 0 ? '' : `, ${whole(accepted)} of them accepted for use`}`}
        </StateWord>
      )}
      {pastDate === 0 ? null : (
        <StateWord shape="diamond" tone="bad">
          {pastDate === null ? 'others past their date' : `${whole(pastDate)} more past their date`}
        </StateWord>
      )}
    </>
  );
}

/** Whether a lot may leave, in a shape and a word. */
export function LotState({ lot }: { readonly lot: LotOnHand }) {
  if (lot.trouble !== null)
    return (
      <>
        <TroubleWord trouble={lot.trouble} /> <AcceptedPartOf lot={lot} /> <LateWord lot={lot} />
      </>
    );
  return (
    <>
      <Release of={lot.release} /> <TroubleWord trouble={lot.said} /> <LateWord lot={lot} />
    </>
  );
}

/** What of a lot that is kept was accepted for use: so many of it may leave, and the rest must not. */
export function AcceptedPartOf({ lot: { accepted } }: { readonly lot: Pick<LotOnHand, 'accepted'> }) {
  if (accepted === null) return null;
  const { accepted: of, mayLeave } = accepted;
  return (
    <StateWord shape={mayLeave > 0 ? 'part' : 'empty'} tone={mayLeave > 0 ? 'ask' : 'calm'}>
      {mayLeave > 0
        ? `${whole(of)} of it accepted for use: ${whole(mayLeave)} may still leave, the rest must not`
        : `${whole(of)} of it accepted for use: none of those may still leave`}
    </StateWord>
  );
}

/** A critical reading of it that nobody took in time: to be known before it goes. */
export function LateWord({ lot: { late } }: { readonly lot: Pick<LotOnHand, 'late'> }) {
  return late.map((what) => (
    <StateWord key={what} shape="diamond" tone="ask">
      {`${what}: not taken in time`}
    </StateWord>
  ));
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

/**
 * The lots of a product that may have gone when nobody picks by lot: those with pieces left that were let go, or else those that nothing keeps, and only where
 * there are no others those that are kept.
 */
export function anyOf(product: ProductOnHand): string[] {
  const left = product.lots.filter((l) => l.left === null || l.left > 0);
  const free = left.filter((l) => keptFrom(l) === null);
  const released = free.filter((l) => l.release === 'released');
  const lots = [released, free, left].find((some) => some.length > 0) ?? product.lots;
  return lots.map((l) => l.id);
}
