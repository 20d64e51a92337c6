import { formulaAt, loosenedFormula, type NewEntry } from '@bakehouse/records';
import { useState } from 'react';
import { SignButton } from '../../shared/sign-button';
import { useNow, useTabletState } from '../../shared/tablet-context';
import { Caution, Field, Section } from '../../ui';

interface Props {
  readonly entry: NewEntry;
  readonly text: string;
  readonly onDone: () => void;
}

/** A version of a formula is signed. Where it lets through what the version before does not, it says so, asks why, and asks once more. */
export function SignFormula({ entry, text, onDone }: Props) {
  const { snapshot } = useTabletState();
  const now = useNow(60_000);
  const [why, setWhy] = useState('');
  if (entry.kind !== 'formula-approved') return null;
  const { formula, content } = entry.payload;
  const before = formulaAt(snapshot.formulaVersion, formula, now);
  const loosened = before ? loosenedFormula(before.content, content) : [];
  if (loosened.length === 0) return <SignButton text={text} draft={entry} onDone={onDone} />;
  const list = (
    <ul>
      {loosened.map((one) => (
        <li key={one}>
          <strong>{one}</strong>
        </li>
      ))}
    </ul>
  );
  return (
    <Section title="This lets through what the version in force does not">
      {list}
      <Field label="Why it may, and who looked at it" value={why} onChange={setWhy} />
      <Caution />
      <SignButton
        text={text}
        draft={{ ...entry, words: { note: why.trim() } }}
        disabled={why.trim() === ''}
        question="Shall the formula let this through?"
        back="Back to the draft"
        under={
          <>
            {list}
            <Caution />
          </>
        }
        says={`It lets through what the version before did not: ${loosened.join('; ')}`}
        onDone={onDone}
      />
    </Section>
  );
}
