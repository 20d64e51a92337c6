import { allergen } from '@bakehouse/kernel';
import { Section, StateWord } from '../../shared/ui';
import { marks, named, type Product } from './words';

/** Every product of today with what it contains, to read out or to print. */
export function Everything({ products }: { readonly products: readonly Product[] }) {
  const of = (p: Product, answer: 'contains' | 'may-contain') => allergen.options.filter((a) => p.answers[a] === answer);
  return (
    <Section title="Everything of today">
      <ul className="cards">
        {products.map((p) => {
          const unknown = allergen.options.some((a) => p.answers[a] === 'unknown');
          const [contains, may] = [of(p, 'contains'), of(p, 'may-contain')];
          return (
            <li key={p.product} className="card">
              <h3>{p.name}</h3>
              {p.onCounter ? <p className="faint">on the counter</p> : null}
              {contains.length === 0 ? null : (
                <p>
                  <StateWord {...marks.contains}>{marks.contains.word}</StateWord> {named(contains)}
                </p>
              )}
              {may.length === 0 ? null : (
                <p>
                  <StateWord {...marks['may-contain']}>{marks['may-contain'].word}</StateWord> {named(may)}
                  {p.fromBowl.length === 0 ? (
                    ''
                  ) : (
                    <span className="faint"> ({named(p.fromBowl)}: only by the same bowl, not cleaned between)</span>
                  )}
                </p>
              )}
              {unknown ? (
                <p>
                  <StateWord {...marks.unknown}>{marks.unknown.word}</StateWord> for everything else: something in it has no description
                </p>
              ) : null}
              {contains.length + may.length === 0 && !unknown ? (
                <p>
                  <StateWord {...marks.not}>none of the list, by what was used</StateWord>
                </p>
              ) : null}
            </li>
          );
        })}
      </ul>
    </Section>
  );
}
