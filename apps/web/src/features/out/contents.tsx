import { contentsView } from '@bakehouse/contracts';
import type { ProductOnHand } from '@bakehouse/views';
import { useMemo } from 'react';
import { Contains } from '../../shared/contains';
import { unsaidText, type Product } from '../../shared/contents-words';
import { useTabletState } from '../../shared/tablet-context';
import { useLoaded } from '../../shared/use-loaded';
import { Section, StateWord } from '../../ui';

/** As many batches as are asked about at once: of the newest of each product first, so that no product is without an answer. */
const most = 100;

/** What the products that are here contain, as the service works it out from what was used: a tablet does not hold all that went into them. */
export function useContents(products: readonly ProductOnHand[]): (product: string) => Product | 'asked' | 'not-known' {
  const { site } = useTabletState();
  const lots = useMemo(() => {
    const all = products.map((p) => p.lots.map((l) => l.id).toReversed());
    const rounds = Math.max(0, ...all.map((l) => l.length));
    return Array.from({ length: rounds }, (_, i) => all.flatMap((l) => l[i] ?? [])).flat();
  }, [products]);
  const { reply } = useLoaded(lots.length === 0 ? null : '/sites/{site}/contents', contentsView, {
    params: { path: { site: site.id }, query: { lots: lots.slice(0, most).join(',') } },
  });
  const found = useMemo(() => new Map(reply?.as === 'ok' ? reply.value.map((p) => [p.product, p]) : []), [reply]);
  return (product) => (reply === undefined ? 'asked' : (found.get(product) ?? 'not-known'));
}

/** Of one product; where nobody can say it now, that it is not known. */
export function ContainsOf({ of }: { readonly of: ReturnType<ReturnType<typeof useContents>> }) {
  if (of === 'asked') return <p className="hint">not answered yet</p>;
  if (of !== 'not-known') return <Contains of={of} />;
  return (
    <p>
      <StateWord shape="unknown" tone="ask">
        what it contains is not known here
      </StateWord>{' '}
      Say so: that is never a no.
    </p>
  );
}

/** What these products contain by what was used and their formulas do not say, as far as the service has answered: a label written from the formula is wrong. */
export function unsaidOf(products: readonly ProductOnHand[], contentsOf: ReturnType<typeof useContents>): string[] {
  return products.flatMap((p) => {
    const of = contentsOf(p.product);
    return of === 'asked' || of === 'not-known' || of.notOnTicket.length === 0 ? [] : [unsaidText(p.name, of.notOnTicket)];
  });
}

/** Said wherever the answers stand. */
export const ByWhatWasUsed = () => (
  <p className="hint">
    By what was recorded as used and what its specifications say; what nobody has checked is not known. Everything is made in one bakehouse:
    flour dust, nuts and seeds get about. Tell that to everybody with a strong allergy too.
  </p>
);

interface WhatIsInItProps {
  readonly products: readonly ProductOnHand[];
  /** As the screen asked for it, which also asks before something leaves. */
  readonly contentsOf: ReturnType<typeof useContents>;
}

/** Does this have sesame? Of everything that is here, for who hands it over. */
export function WhatIsInIt({ products, contentsOf }: WhatIsInItProps) {
  if (products.length === 0) return null;
  return (
    <Section title="What is in it">
      <ul className="cards">
        {products.map((p) => (
          <li key={p.product} className="card">
            <h3>{p.name}</h3>
            <ContainsOf of={contentsOf(p.product)} />
          </li>
        ))}
      </ul>
      <ByWhatWasUsed />
    </Section>
  );
}
