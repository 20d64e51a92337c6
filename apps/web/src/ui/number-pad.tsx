import { useId, useRef } from 'react';

interface Props {
  readonly label: string;
  readonly unit?: string;
  readonly value: string;
  readonly onChange: (value: string) => void;
  readonly decimals?: boolean;
  readonly negative?: boolean;
  readonly hide?: boolean;
  readonly onEnter?: () => void;
  readonly autoFocus?: boolean;
  readonly maxDigits?: number;
}

/** What a figure may look like while it is being typed. */
const soFar = { decimals: /^-?\d{0,9}(\.\d{0,3})?$/, whole: /^\d{0,9}$/ } as const;

/** A number by finger or keyboard. The field asks for no keyboard of its own: the keys are here, and large. */
export function NumberPad({
  label,
  unit,
  value,
  onChange,
  decimals = true,
  negative = false,
  hide = false,
  onEnter,
  autoFocus = true,
  maxDigits = 9,
}: Props) {
  const id = useId();
  const field = useRef<HTMLInputElement>(null);
  const type = (next: string): void => {
    const cleaned = next.replace(',', '.');
    const fits =
      (decimals ? soFar.decimals : soFar.whole).test(cleaned) &&
      (negative || !cleaned.startsWith('-')) &&
      cleaned.replace(/\D/g, '').length <= maxDigits;
    if (fits) onChange(cleaned);
  };
  const key = (text: string, does: () => void, name = text) => (
    <button
      key={text}
      type="button"
      className="pad-key"
      aria-label={name}
      onClick={() => {
        does();
        field.current?.focus();
      }}
    >
      {text}
    </button>
  );
  const digits = (...some: readonly string[]) => some.map((d) => key(d, () => type(value + d)));
  return (
    <div className="pad">
      <label htmlFor={id}>{label}</label>
      <div className="pad-line">
        <input
          ref={field}
          id={id}
          type={hide ? 'password' : 'text'}
          inputMode="none"
          autoComplete="off"
          value={value}
          autoFocus={autoFocus}
          onChange={(event) => type(event.target.value)}
          onKeyDown={(event) => {
            if (event.key === 'Enter') onEnter?.();
          }}
        />
        {unit === undefined ? null : <span className="pad-unit">{unit}</span>}
      </div>
      <div className="pad-keys">
        {digits('1', '2', '3', '4', '5', '6', '7', '8', '9')}
        {decimals ? key('.', () => type(value === '' ? '0.' : `${value}.`), 'point') : <span />}
        {digits('0')}
        {key('⌫', () => onChange(value.slice(0, -1)), 'take back the last figure')}
        {negative ? key('−', () => type(value.startsWith('-') ? value.slice(1) : `-${value}`), 'below zero') : null}
      </div>
    </div>
  );
}

/** A figure as records take it, or undefined where it is not finished. */
export function figureOf(typed: string): string | undefined {
  const trimmed = typed.endsWith('.') ? typed.slice(0, -1) : typed;
  return /^-?\d{1,9}(\.\d{1,6})?$/.test(trimmed) ? trimmed : undefined;
}
