import { allergen } from '@bakehouse/kernel';
import { StateWord } from '../ui';
import { marks, named, type Product } from './contents-words';
import { dayText } from './format';

/** What one product contains by what was used, and what nobody knows of it. */
export function Contains({ of: p }: { readonly of: Product }) {
  const those = (answer: 'contains' | 'may-contain') => allergen.options.filter((a) => p.answers[a] === answer);
  const unknown = allergen.options.some((a) => p.answers[a] === 'unknown');
  const [contains, may] = [those('contains'), those('may-contain')];
  return (
    <>
      {contains.length === 0 ? null : (
        <p>
          <StateWord {...marks.contains}>{marks.contains.word}</StateWord> {named(contains)}
        </p>
      )}
      {may.length === 0 ? null : (
        <p>
          <StateWord {...marks['may-contain']}>{marks['may-contain'].word}</StateWord> {named(may)}
          {p.fromBowl.length === 0 ? '' : <span className="faint"> ({named(p.fromBowl)}: only by the same bowl, not cleaned between)</span>}
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
    </>
  );
}
