import { concernsBehind, endsByDisposition, findingText } from '@bakehouse/records';
import type { Lookup } from '@bakehouse/views';
import { dayTime } from '../../shared/trace/words';

interface Props {
  /** What else holds the food, each by its id. */
  readonly holding: readonly { readonly id: string; readonly text: string }[];
  readonly chosen: readonly string[];
  readonly onChange: (chosen: readonly string[]) => void;
}

/** What else holds the food, worked out of the records: a decision ends only what was ticked, and nothing is beforehand. */
export function AlsoDecided({ holding, chosen, onChange }: Props) {
  if (holding.length === 0) return null;
  return (
    <fieldset className="ticks">
      <legend>This holds it as well. Tick what you decide about too; the rest stays on hold.</legend>
      {holding.map(({ id, text }) => (
        <label key={id}>
          <input
            type="checkbox"
            checked={chosen.includes(id)}
            onChange={(e) => onChange(e.target.checked ? [...chosen, id] : chosen.filter((one) => one !== id))}
          />
          {text}
        </label>
      ))}
    </fieldset>
  );
}

/** What holds a lot beside the deviation, and ends by no act of its own. */
export function heldBeside({ concerns, state }: Lookup, deviation: string, lot: string, zone: string): Props['holding'] {
  const row = state.get('deviation', deviation);
  const own = new Set(row ? concernsBehind(state, row) : []);
  return (concerns.get(lot) ?? []).flatMap(({ concern: { id, type, what, since } }) =>
    own.has(id) || !endsByDisposition(type) ? [] : [{ id, text: `${findingText({ code: type, what })}, since ${dayTime(since, zone)}` }],
  );
}
