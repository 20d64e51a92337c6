import { Section } from '../../ui';
import { Contains } from '../../shared/contains';
import { OnHoldDoNotSell } from './on-hold';
import type { Product } from '../../shared/contents-words';

/** Every product of today with what it contains, to read out or to print. */
export function Everything({ products }: { readonly products: readonly Product[] }) {
  return (
    <Section title="Everything of today">
      <ul className="cards">
        {products.map((p) => {
          return (
            <li key={p.product} className="card">
              <h3>{p.name}</h3>
              <OnHoldDoNotSell of={p} />
              {p.onCounter ? <p className="faint">on the counter</p> : null}
              <Contains of={p} />
            </li>
          );
        })}
      </ul>
    </Section>
  );
}
