import { allergen } from '@bakehouse/kernel';
import { dayText } from '../../shared/format';
import { Section, StateWord } from '../../ui';
import { OnHoldDoNotSell } from './on-hold';
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
              <OnHoldDoNotSell of={p} />
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
                  <StateWord {...marks.unknown}>{marks.unknown.word}</StateWord> for everything else: nobody has checked all that is in it
                </p>
              ) : null}
              {!unknown && p.checkedSince !== null ? (
                <p>
                  <StateWord {...marks.not}>
                    {`${contains.length + may.length === 0 ? 'none' : 'nothing else'} of the list was used in it, by specifications each checked on ${dayText(p.checkedSince)} or after`}
                  </StateWord>
                </p>
              ) : null}
            </li>
          );
        })}
      </ul>
    </Section>
  );
}
