import { unitText, type Unit } from '@bakehouse/kernel';
import { phrase } from '@bakehouse/records';
import { Figure, Pick, Words } from '../../shared/drafts/fields';
import { limitOf, type LimitText } from './text';

const types = (['range', 'elapsed', 'yes'] as const).map((value) => ({ value, text: phrase(`limit.${value}`) }));
const units = (['degC', 'degF', 'pH', 'g', 'kg', 'min'] as const satisfies readonly Unit[]).map((value) => ({
  value,
  text: unitText(value),
}));
const blank: LimitText = { type: 'range', min: null, max: null, unit: 'degC', maxMinutes: null, fromCelsius: null, toCelsius: null };
const orNull = (typed: string): string | null => (typed.trim() === '' ? null : typed.trim());

/** A limit: from–to with both ends in it, a time allowed, or that the answer must be yes. */
export function LimitEditor({ limit, onChange }: { readonly limit: LimitText; readonly onChange: (limit: LimitText) => void }) {
  const set = (to: Partial<LimitText>): void => onChange(limitOf({ ...blank, ...limit, ...to }));
  return (
    <div className="small-fields">
      <Pick
        label="Limit"
        value={limit.type}
        options={types}
        onChange={(chosen) => {
          const found = types.find((s) => s.value === chosen);
          if (found) set({ type: found.value });
        }}
      />
      {limit.type === 'range' ? (
        <>
          <Words label="From, at least" value={limit.min ?? ''} onChange={(typed) => set({ min: orNull(typed) })} />
          <Words label="To, at most" value={limit.max ?? ''} onChange={(typed) => set({ max: orNull(typed) })} />
          <Pick label="Unit" value={limit.unit} options={units} onChange={(unit) => set({ unit: unit ?? 'degC' })} />
        </>
      ) : null}
      {limit.type === 'elapsed' ? (
        <>
          <Figure label="At most" unit="min" value={limit.maxMinutes} onChange={(maxMinutes) => set({ maxMinutes })} />
          <Words label="Cooling from" unit="°C" value={limit.fromCelsius ?? ''} onChange={(typed) => set({ fromCelsius: orNull(typed) })} />
          <Words label="down to" unit="°C" value={limit.toCelsius ?? ''} onChange={(typed) => set({ toCelsius: orNull(typed) })} />
        </>
      ) : null}
    </div>
  );
}
