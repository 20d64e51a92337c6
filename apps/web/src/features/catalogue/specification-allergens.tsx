import { checkedAgainst, madeHere, phrase } from '@bakehouse/records';
import { Choice, Field, Section } from '../../ui';
import { AllergenPicker } from './allergen-picker';
import { nothingMarked, type Part } from './specification-text';
import { YesNo } from './yes-no';

const ways = [
  ...checkedAgainst.options.map((value) => ({ value, text: phrase(`checkedAgainst.${value}`) })),
  { value: 'nobody' as const, text: 'nobody has checked it' },
];

/** What it contains, and who checked that: nothing here begins as "none". What is made here has no allergens of its own. */
export function SpecificationAllergens({ text, set, troubles }: Part) {
  if (madeHere(text.type))
    return (
      <Section title="Allergens">
        <p>It is made here: it contains what its formulas say, and at the counter what was used.</p>
      </Section>
    );
  const checked = text.against !== null && text.against !== 'nobody';
  return (
    <Section title="Allergens">
      <p>As the supplier says. “Contains” is what is in it; “may contain” is what could have come into it.</p>
      <AllergenPicker value={text.allergens} onChange={(allergens) => set({ allergens })} />
      <Choice label="Checked against" value={text.against} onChange={(against) => set({ against })} options={ways} />
      {troubles.against === undefined ? null : <p className="hint">{troubles.against}</p>}
      {text.against === 'nobody' ? <p>What is not marked stays “not known” wherever it is used, until somebody checks it.</p> : null}
      {checked ? (
        <Field
          label="Checked on"
          type="date"
          value={text.checkedOn}
          onChange={(checkedOn) => set({ checkedOn })}
          required
          hint={troubles.checkedOn ?? 'By you: your name stays with it'}
        />
      ) : null}
      {checked && nothingMarked(text) ? (
        <>
          <YesNo label="Does it name none of the list?" value={text.none} onChange={(none) => set({ none })} />
          {troubles.none === undefined ? null : <p className="hint">{troubles.none}</p>}
        </>
      ) : null}
    </Section>
  );
}
