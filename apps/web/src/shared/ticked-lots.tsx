interface Props {
  readonly label: string;
  readonly lots: readonly { readonly lot: string; readonly text: string }[];
  /** Those that somebody took off. */
  readonly without: readonly string[];
  readonly onChange: (without: readonly string[]) => void;
}

/** Lots that are all meant, until somebody takes one off. */
export function TickedLots({ label, lots, without, onChange }: Props) {
  return (
    <fieldset className="ticks">
      <legend>{label}</legend>
      {lots.map(({ lot, text }) => (
        <label key={lot}>
          <input
            type="checkbox"
            checked={!without.includes(lot)}
            onChange={(e) => onChange(e.target.checked ? without.filter((one) => one !== lot) : [...without, lot])}
          />
          {text}
        </label>
      ))}
    </fieldset>
  );
}
