import { useEffect, useId, useState } from 'react';
import { Button } from '../../ui';
import { movedUp, without } from './lists';

interface FigureProps {
  readonly label: string;
  readonly value: number | null;
  readonly onChange: (value: number | null) => void;
  /** How many of what is kept make one of what is typed: 1000 for milligrams typed as grams. */
  readonly per?: number;
  readonly unit?: string;
  readonly hideLabel?: boolean;
}

const readFigure = (typed: string, per: number): number | null =>
  /^-?\d{1,9}([.,]\d{1,6})?$/.test(typed.trim()) ? Math.round(Number(typed.trim().replace(',', '.')) * per) : null;

/** A number that is typed. What is no number yet stays as it was typed, and counts as missing. */
export function Figure({ label, value, onChange, per = 1, unit, hideLabel = false }: FigureProps) {
  const id = useId();
  const [typed, setTyped] = useState(value === null ? '' : String(value / per));
  useEffect(
    () => setTyped((before) => (readFigure(before, per) === value ? before : value === null ? '' : String(value / per))),
    [value, per],
  );
  return (
    <div className="small-field">
      <label htmlFor={id} className={hideLabel ? 'unseen' : ''}>
        {label}
      </label>
      <span className="with-unit">
        <input
          id={id}
          inputMode="decimal"
          autoComplete="off"
          value={typed}
          onChange={({ target }) => {
            setTyped(target.value);
            onChange(readFigure(target.value, per));
          }}
        />
        {unit === undefined ? null : <span aria-hidden="true">{unit}</span>}
      </span>
    </div>
  );
}

interface TextProps {
  readonly label: string;
  readonly value: string;
  readonly onChange: (value: string) => void;
  readonly hideLabel?: boolean;
  readonly unit?: string;
  /** Characters at most. */
  readonly most?: number;
  readonly type?: 'text' | 'date';
}

export function Words({ label, value, onChange, hideLabel = false, unit, most = 120, type = 'text' }: TextProps) {
  const id = useId();
  return (
    <div className="small-field">
      <label htmlFor={id} className={hideLabel ? 'unseen' : ''}>
        {label}
      </label>
      <span className="with-unit">
        <input id={id} type={type} autoComplete="off" maxLength={most} value={value} onChange={({ target }) => onChange(target.value)} />
        {unit === undefined ? null : <span aria-hidden="true">{unit}</span>}
      </span>
    </div>
  );
}

interface PickProps {
  readonly label: string;
  readonly value: string | null;
  readonly options: readonly { readonly value: string; readonly text: string }[];
  readonly onChange: (value: string | null) => void;
  readonly nothing?: string;
  readonly hideLabel?: boolean;
}

/** One of many, by name. */
export function Pick({ label, value, options, onChange, nothing, hideLabel = false }: PickProps) {
  const id = useId();
  const strange = value !== null && !options.some((o) => o.value === value);
  return (
    <div className="small-field">
      <label htmlFor={id} className={hideLabel ? 'unseen' : ''}>
        {label}
      </label>
      <select id={id} value={value ?? ''} onChange={({ target }) => onChange(target.value === '' ? null : target.value)}>
        {nothing === undefined ? null : <option value="">{nothing}</option>}
        {strange ? <option value={value}>not in the list</option> : null}
        {options.map((o) => (
          <option key={o.value} value={o.value}>
            {o.text}
          </option>
        ))}
      </select>
    </div>
  );
}

interface RowKeysProps<T> {
  /** Such as “line 2”. */
  readonly what: string;
  readonly list: readonly T[];
  readonly at: number;
  readonly onChange: (list: T[]) => void;
}

/** Moves one row of a list up, or takes it out. */
export function RowKeys<T>({ what, list, at, onChange }: RowKeysProps<T>) {
  return (
    <td className="row-keys">
      <Button look="quiet" label={`Move ${what} up`} disabled={at === 0} onClick={() => onChange(movedUp(list, at))}>
        Up
      </Button>
      <Button look="quiet" label={`Take out ${what}`} onClick={() => onChange(without(list, at))}>
        Take out
      </Button>
    </td>
  );
}
