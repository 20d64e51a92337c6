import { NumberPad } from './ui';

interface Props {
  readonly unit: 'piece' | 'kg';
  readonly value: string;
  readonly onChange: (figure: string) => void;
}

/** How much a decision takes out of the house. It is booked out with the decision, and a second record of it would take it off twice. */
export function HowMuchGoes({ unit, value, onChange }: Props) {
  return (
    <>
      <NumberPad
        label="How much of it? Leave it empty for all of it"
        unit={unit === 'piece' ? 'pieces' : unit}
        decimals={unit === 'kg'}
        value={value}
        onChange={onChange}
      />
      <p className="hint">It leaves the house with this decision. Do not record it under Send out as well.</p>
    </>
  );
}
