import { dispositionChoice, letsUse, phrase, type PayloadFor } from '@bakehouse/records';
import { codeOf, nameOf, type DeviationView, type Lookup } from '@bakehouse/views';
import { useState } from 'react';
import { CoversChoice } from '../../shared/covers-choice';
import { codeText } from '../../shared/night/code-text';
import { useNight } from '../../shared/night/use-night';
import { SignButton } from '../../shared/sign-button';
import { Choice, Field, type Option } from '../../shared/ui';

type Disposition = PayloadFor<'disposition-decided'>;

/** The disposition of the food, and closing. Nothing is chosen beforehand: what was not said to be covered stays on hold. */
export function Decide({ d }: { readonly d: DeviationView }) {
  const { lookup, state } = useNight();
  const [about, setAbout] = useState('');
  const [chosen, setChosen] = useState<Disposition['disposition'] | null>(null);
  const [typed, setCovers] = useState<Disposition['covers'] | null>(null);
  const [review, setReview] = useState('');
  const reached = reachedBy(lookup, d);
  // Only where food is used does it matter how far the decision goes.
  const used = chosen !== null && letsUse(chosen);
  const covers = used ? typed : 'this-alone';
  return (
    <>
      {reached.length === 0 ? null : (
        <Choice
          label="Of what?"
          value={about}
          onChange={setAbout}
          options={[{ value: '', text: nameOf(lookup, d.subjectType, d.subject) ?? state.site.name }, ...reached]}
        />
      )}
      <Choice
        label="Disposition"
        value={chosen}
        onChange={setChosen}
        options={dispositionChoice.options.map((b) => ({ value: b, text: phrase(`disposition.${b}`) }))}
      />
      {used ? <CoversChoice value={typed} onChange={setCovers} /> : null}
      {chosen === null || covers === null ? null : (
        <SignButton
          text={`Sign: ${phrase(`disposition.${chosen}`)}`}
          draft={{
            kind: 'disposition-decided',
            payload: { deviation: d.id, lot: about === '' ? null : about, disposition: chosen, covers, quantity: null },
          }}
          onDone={() => {
            setChosen(null);
            setCovers(null);
          }}
        />
      )}
      <Field label="Review, in a few words" value={review} onChange={setReview} lines={2} maxLength={400} />
      <SignButton text="Sign and close" draft={{ kind: 'deviation-closed', payload: { deviation: d.id }, words: { review } }} />
    </>
  );
}

/** Lots that it holds beside what it is about: each can be decided on by itself. */
function reachedBy(lookup: Lookup, { id, subject }: DeviationView): Option<string>[] {
  const holds = [...lookup.concerns].filter(([lot, reaching]) => lot !== subject && reaching.some((r) => r.concern.id === id));
  return holds.map(([lot]) => ({ value: lot, text: `${lookup.state.get('lot', lot)?.name ?? ''}, ${codeText(codeOf(lookup, lot))}` }));
}
