import { covers, phrase, type PayloadFor } from '@bakehouse/records';
import { Choice } from '../ui';

type Covers = PayloadFor<'disposition-decided'>['covers'];

/** How far a decision to use food goes. Nothing is chosen beforehand: what was not said to be covered stays on hold. */
export function CoversChoice({ value, onChange }: { readonly value: Covers | null; readonly onChange: (covers: Covers) => void }) {
  return (
    <Choice
      label="What does that cover?"
      value={value}
      onChange={onChange}
      options={covers.options.map((c) => ({ value: c, text: phrase(`covers.${c}`) }))}
    />
  );
}
