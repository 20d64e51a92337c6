import { useId, type ReactNode } from 'react';

export interface Option<V extends string> {
  readonly value: V;
  readonly text: ReactNode;
}

interface Props<V extends string> {
  readonly label: string;
  readonly options: readonly Option<V>[];
  readonly value: V | null;
  readonly onChange: (value: V) => void;
  readonly hideLabel?: boolean;
}

/** One of a few, all in sight: radio buttons that look like keys. */
export function Choice<V extends string>({ label, options, value, onChange, hideLabel = false }: Props<V>) {
  const name = useId();
  return (
    <fieldset className="choice">
      <legend className={hideLabel ? 'unseen' : ''}>{label}</legend>
      {options.map((o) => (
        <label key={o.value} className={o.value === value ? 'chosen' : ''}>
          <input type="radio" name={name} checked={o.value === value} onChange={() => onChange(o.value)} />
          <span aria-hidden="true" className="dot" />
          {o.text}
        </label>
      ))}
    </fieldset>
  );
}
