import type { RecallView } from '@bakehouse/contracts';
import { toClear } from '@bakehouse/views';
import { Section, StateWord } from '../../ui';

/** What customers can still take in the house's own shops: before anybody is rung. */
export function ClearFirst({ recall }: { readonly recall: RecallView }) {
  const all = toClear(recall);
  if (all.length === 0) return null;
  return (
    <Section title={recall.practice ? 'Practice: what would be cleared first from our own counters' : 'First: clear our own counters'}>
      <ul className="rows">
        {all.map((c) => (
          <li key={c.lot} className="row">
            <span className="row-main">
              <strong>{c.name}</strong>
              {c.code === null ? '' : `, lot ${c.code}`}
            </span>
            {c.places.map((place) => (
              <StateWord key={place} shape="diamond" tone={recall.practice ? 'ask' : 'bad'}>
                {place}
              </StateWord>
            ))}
          </li>
        ))}
      </ul>
    </Section>
  );
}
