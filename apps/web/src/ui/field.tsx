import { useId, type ReactNode } from 'react';

interface Props {
  readonly label: string;
  readonly value: string;
  readonly onChange: (value: string) => void;
  readonly hint?: ReactNode;
  readonly lines?: number;
  readonly type?: 'text' | 'date' | 'time';
  readonly required?: boolean;
  readonly maxLength?: number;
}

/** A line or a few of text, with its name above it and its hint beside it. */
export function Field({ label, value, onChange, hint, lines = 1, type = 'text', required = false, maxLength }: Props) {
  const id = useId();
  const shared = {
    id,
    value,
    required,
    maxLength,
    'aria-describedby': hint === undefined ? undefined : `${id}-hint`,
    onChange: (event: { readonly target: { readonly value: string } }) => onChange(event.target.value),
  };
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      {lines > 1 ? <textarea {...shared} rows={lines} /> : <input {...shared} type={type} autoComplete="off" />}
      {hint === undefined ? null : (
        <p className="hint" id={`${id}-hint`}>
          {hint}
        </p>
      )}
    </div>
  );
}
