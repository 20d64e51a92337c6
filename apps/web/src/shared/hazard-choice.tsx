import { hazard, phrase, type Hazard } from '@bakehouse/records';
import { useId } from 'react';

const says: Readonly<Record<Hazard, string>> = {
  physical:
    'Glass, metal, plastic, wood, a stone. One splinter can be in any piece: everything that was reached counts, however little of it is in there.',
  microbiological:
    'Salmonella, Listeria, mould, a toxin. Germs do not thin out: everything reached counts, and as possible whatever the same bowls and scales made before they were cleaned.',
  allergen:
    'Something that is not on the label. It does not thin out: everything reached counts, and as possible whatever the same bowls and scales made before they were cleaned.',
  chemical:
    'Mixed in evenly all through, such as a residue in flour. It thins out, but nothing is left out unless an action level is stated and signed for.',
};

/** The four hazards, in plain words: which one it is decides what is in scope. */
export function HazardChoice({ value, onChange }: { readonly value: Hazard | null; readonly onChange: (value: Hazard) => void }) {
  const name = useId();
  return (
    <fieldset className="hazards">
      <legend className="unseen">Hazard</legend>
      {hazard.options.map((h) => (
        <label key={h} className={h === value ? 'chosen' : ''}>
          <input type="radio" name={name} checked={h === value} onChange={() => onChange(h)} />
          <span className="dot" aria-hidden="true" />
          <span>
            <strong>{phrase(`hazard.${h}`)}</strong>
            <br />
            {says[h]}
          </span>
        </label>
      ))}
    </fieldset>
  );
}
