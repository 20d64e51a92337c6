import { Choice } from '../../ui';

const options = [
  { value: 'no', text: 'no' },
  { value: 'yes', text: 'yes' },
] as const;

/** A question with two answers. */
export function YesNo({
  label,
  value,
  onChange,
}: {
  readonly label: string;
  readonly value: boolean;
  readonly onChange: (yes: boolean) => void;
}) {
  return <Choice label={label} value={value ? 'yes' : 'no'} onChange={(v) => onChange(v === 'yes')} options={options} />;
}
