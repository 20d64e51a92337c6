import { gs1Parse } from '@bakehouse/standards';

/** The answer of a sum that was not refused. */
export function answered<T>(outcome: { ok: true; value: T } | { ok: false }): T {
  if (!outcome.ok) throw new Error(`refused: ${JSON.stringify(outcome)}`);
  return outcome.value;
}
/** What stands in a text that holds element strings. */
export const parse = (text: string, more: object = {}) => answered(gs1Parse.calculate({ text, ...more }));
/** Its elements in brackets, as people write them. */
export const pairs = (text: string, more: object = {}) =>
  parse(text, more)
    .elements.map(({ ai, value }) => `(${ai})${value}`)
    .join('');
/** Which rules it breaks, and where. */
export const rulesOf = (text: string, more: object = {}) => parse(text, more).errors.map(({ rule, ai }) => `${rule} ${ai}`);
