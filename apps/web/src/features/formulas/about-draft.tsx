import type { FormulaDraftView } from '@bakehouse/contracts';
import { AllergenSentence } from '../../shared/allergen-sentence';
import { Caution, Section, StateWord } from '../../ui';
import type { Choices } from './choices';
import { PlanPointsOf } from './plan-points-of';
import { differenceWords, placeWords } from './places';
import type { FormulaWriting } from './text';

/** As it was last saved: what still stands against it, what it contains, what it changes. */
export function AboutDraft({ view, choices }: { readonly view: FormulaDraftView; readonly choices: Choices }) {
  const { problems, allergens, against } = view;
  return (
    <Section title="As it was last saved">
      {problems.length === 0 ? (
        <p>
          <StateWord shape="disc" tone="good">
            Nothing stands against signing it
          </StateWord>
        </p>
      ) : (
        <>
          <p>
            <StateWord shape="ring" tone="calm">
              Still to do before it can be signed
            </StateWord>
          </p>
          <ul className="to-do">
            {problems.map((p, i) => (
              <li key={i}>
                <strong>{placeWords(p.field.split('.'), choices) || 'the whole'}</strong>: {p.title}
                {p.acceptable === null ? '' : `; acceptable: ${p.acceptable}`}
              </li>
            ))}
          </ul>
        </>
      )}
      <p>
        <AllergenSentence by="formula" of={allergens} />
      </p>
      {against === null ? (
        <p>No version of it was approved yet.</p>
      ) : against.differences.length === 0 ? (
        <p>The same as version {against.number}.</p>
      ) : (
        <>
          <h3>Against version {against.number}</h3>
          <ul>
            {against.differences.map((d, i) => (
              <li key={i}>{differenceWords({ before: undefined, after: undefined, ...d }, choices)}</li>
            ))}
          </ul>
        </>
      )}
      {view.others.length === 0 ? null : (
        <p>Also being worked on by {view.others.map((o) => o.by.name ?? 'somebody').join(', ')}, in a draft of their own.</p>
      )}
    </Section>
  );
}

/** The control points of the plan in force that this formula and its products are held to. */
export function PointsShown({ writing: { view, text } }: { readonly writing: FormulaWriting }) {
  const products = text.content.products.flatMap((p) => (p.product === null ? [] : [p.product]));
  return (
    <Section title="Control points by the plan in force">
      <PlanPointsOf formula={view.subject} products={products} />
      <Caution />
    </Section>
  );
}
