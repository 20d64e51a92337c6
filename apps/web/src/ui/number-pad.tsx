import { useEffect, useId, useRef } from 'react';

export interface PadProps {
  readonly label: string;
  readonly unit?: string;
  /** What somebody else put here, a proposed or a former value, is replaced by the first figure that is typed. */
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
export function NumberPad(props: PadProps) {
  const { label, unit, value, decimals = true, negative = false, hide = false, onEnter } = props;
  const id = useId();
  const { field, type, before, erase } = useTyping(props);
  const key = (text: string, does: () => void, name = text, look = 'pad-key') => (
    <button
      key={text}
      type="button"
      className={look}
      aria-label={name}
      onClick={() => {
        does();
        field.current?.focus();
      }}
    >
      {text}
    </button>
  );
  const digits = (...some: readonly string[]) => some.map((d) => key(d, () => type(before() + d)));
  return (
    <div className="pad">
      <label htmlFor={id}>{label}</label>
      <div className="pad-line">
        {negative ? key('−', () => type(value.startsWith('-') ? value.slice(1) : `-${value}`), 'below zero', 'pad-sign') : null}
        <input
          ref={field}
          id={id}
          type={hide ? 'password' : 'text'}
          inputMode="none"
          autoComplete="off"
          value={value}
          onChange={(event) => type(event.target.value)}
          onKeyDown={(event) => {
            if (event.key === 'Enter') onEnter?.();
          }}
        />
        {unit === undefined ? null : <span className="pad-unit">{unit}</span>}
      </div>
      <div className="pad-keys">
        {digits('1', '2', '3', '4', '5', '6', '7', '8', '9')}
        {decimals ? key('.', () => type(`${before() === '' ? '0' : before()}.`), 'point') : <span />}
        {digits('0')}
        {key('⌫', erase, 'take back the last figure')}
      </div>
    </div>
  );
}

/** The field and what its keys do. The field has the focus from the start; what was put there by somebody else is marked, as a keyboard's first key replaces it too. */
function useTyping({ value, onChange, decimals = true, negative = false, autoFocus = true, maxDigits = 9 }: PadProps) {
  const field = useRef<HTMLInputElement>(null);
  const typed = useRef('');
  useEffect(() => {
    if (autoFocus) field.current?.focus();
  }, [autoFocus]);
  useEffect(() => {
    if (value !== '' && value !== typed.current) field.current?.select();
  }, [value]);
  const give = (next: string): void => {
    typed.current = next;
    onChange(next);
  };
  const type = (next: string): void => {
    const cleaned = next.replace(',', '.');
    const fits =
      (decimals ? soFar.decimals : soFar.whole).test(cleaned) &&
      (negative || !cleaned.startsWith('-')) &&
      cleaned.replace(/\D/g, '').length <= maxDigits;
    if (fits) give(cleaned);
  };
  return {
    field,
    type,
    before: (): string => (value === typed.current ? value : ''),
    erase: (): void => give(value.slice(0, -1)),
  };
}

/** A figure as records take it, or undefined where it is not finished. */
export function figureOf(typed: string): string | undefined {
  const trimmed = typed.endsWith('.') ? typed.slice(0, -1) : typed;
  return /^-?\d{1,9}(\.\d{1,6})?$/.test(trimmed) ? trimmed : undefined;
}
