import { dayText } from '../../shared/format';
import { Section, StateWord } from '../../ui';
import { OnHoldDoNotSell } from './on-hold';
import { entryName, marks, named, order, worstOf, type Entry, type Product } from '../../shared/contents-words';

/** One question, every product of today: yes on top, then may be, then nobody knows, then no. */
export function Answers({ entry, products }: { readonly entry: Entry; readonly products: readonly Product[] }) {
  return (
    <Section title={`Today and ${entryName(entry)}`}>
      <div className="answers" role="status">
        {order.map((answer) => {
          const { shape, tone, word } = marks[answer];
          const those = products.filter((p) => worstOf(p, entry.members) === answer);
          return those.length === 0 ? null : (
            <div key={answer} className={`answer ${tone}`}>
              <p className="answer-word">
                <StateWord shape={shape} tone={tone}>
                  {word}
                </StateWord>
              </p>
              <ul>
                {those.map((p) => (
                  <li key={p.product}>
                    <strong>{p.name}</strong>
                    {entry.members.length > 1 && answer !== 'not' && answer !== 'unknown'
                      ? ` (${named(entry.members.filter((m) => p.answers[m] === answer))})`
                      : ''}
                    {answer === 'not' && p.checkedSince !== null ? ` (each checked on ${dayText(p.checkedSince)} or after)` : ''}
                    {p.onCounter ? ' · on the counter' : ''}
                    <OnHoldDoNotSell of={p} />
                  </li>
                ))}
              </ul>
              {answer === 'unknown' ? <p>Say that it is not known. That is never a no.</p> : null}
            </div>
          );
        })}
      </div>
    </Section>
  );
}
