import {
  countedInPieces,
  densityOfLot,
  dispositionChoice,
  doesAway,
  leftOf,
  letsUse,
  movementsOf,
  phrase,
  type PayloadFor,
} from '@bakehouse/records';
import { codeOf, nameOf, type DeviationView, type Lookup } from '@bakehouse/views';
import { useState } from 'react';
import { unitsOf, useAmount } from '../../shared/amount-pad';
import { CoversChoice } from '../../shared/covers-choice';
import { codeText } from '../../shared/night/code-text';
import { useNight } from '../../shared/night/use-night';
import { HowMuchGoes, moreThanLeft, typedText, unitsBeside, type LeftThere } from '../../shared/how-much-goes';
import { SignButton } from '../../shared/sign-button';
import { Choice, type Option } from '../../ui';
import { AlsoDecided, heldBeside } from './also-decided';

type Disposition = PayloadFor<'disposition-decided'>;

/** The disposition of the food. Nothing is chosen beforehand: what was not said to be covered stays on hold. */
export function Decide({ d }: { readonly d: DeviationView }) {
  const { lookup, state, zone } = useNight();
  const [about, setAbout] = useState('');
  const [chosen, setChosen] = useState<Disposition['disposition'] | null>(null);
  const [typed, setCovers] = useState<Disposition['covers'] | null>(null);
  const [also, setAlso] = useState<readonly string[]>([]);
  const reached = reachedBy(lookup, d);
  // Only where food is used does it matter how far the decision goes.
  const used = chosen !== null && letsUse(chosen);
  const covers = used ? typed : 'this-alone';
  const away = chosen !== null && doesAway(chosen);
  const lot = state.rows.get('lot', about === '' ? d.subject : about);
  const beside = used ? heldBeside(lookup, d.id, about === '' ? d.subject : about, zone) : [];
  const concerns = beside.flatMap(({ id }) => (also.includes(id) ? id : []));
  const left = leftBeside(lookup, lot?.id);
  const amount = useAmount(unitsBeside(left, lot ? unitsOf(lookup, lot.id) : ['piece']));
  const named = lot ? `${lot.name}, ${codeText(codeOf(lookup, lot.id))}` : (nameOf(lookup, d.subjectType, d.subject) ?? state.site.name);
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
      <AlsoDecided holding={beside} chosen={also} onChange={setAlso} />
      {away ? <HowMuchGoes amount={amount} left={left} /> : null}
      {chosen === null || covers === null ? null : (
        <SignButton
          text={`Sign: ${phrase(`disposition.${chosen}`)}`}
          says={`${phrase(`disposition.${chosen}`)}, ${away ? typedText(amount) : phrase(`covers.${covers}`)}: ${named}.`}
          question={away ? moreThanLeft(amount, left, lot ? densityOfLot(lookup.state, lot, lookup.at) : null) : undefined}
          draft={{
            kind: 'disposition-decided',
            payload: {
              deviation: d.id,
              lot: about === '' ? null : about,
              disposition: chosen,
              covers,
              concerns,
              quantity: away ? amount.quantity : null,
            },
          }}
          onDone={() => {
            setChosen(null);
            setCovers(null);
            setAlso([]);
            amount.setTyped('');
          }}
        />
      )}
    </>
  );
}

/** How much of a lot the decision may be about, by the records that are here. */
function leftBeside({ state, at }: Lookup, id: string | undefined): LeftThere {
  const lot = id === undefined ? undefined : state.get('lot', id);
  const measure = lot && !countedInPieces(lot) ? 'mg' : 'pieces';
  return { measure, amount: lot ? leftOf(lot[measure], movementsOf(state, lot.id, at, { oneOfSeveral: 'left-out' }), measure) : null };
}

/** Lots that it holds beside what it is about: each can be decided on by itself. */
function reachedBy(lookup: Lookup, { id, subject }: DeviationView): Option<string>[] {
  const holds = [...lookup.concerns].filter(([lot, reaching]) => lot !== subject && reaching.some((r) => r.concern.id === id));
  return holds.map(([lot]) => ({ value: lot, text: `${lookup.state.get('lot', lot)?.name ?? ''}, ${codeText(codeOf(lookup, lot))}` }));
}
