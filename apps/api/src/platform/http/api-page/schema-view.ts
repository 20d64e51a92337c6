import * as z from 'zod';
import { html, nothing, type Html } from './html.js';

/** What the page reads of a JSON Schema; what is inside is read where it is shown. */
const schema = z.looseObject({
  $ref: z.string().optional(),
  type: z.union([z.string(), z.array(z.string())]).optional(),
  const: z.unknown().optional(),
  enum: z.array(z.unknown()).optional(),
  anyOf: z.array(z.unknown()).optional(),
  oneOf: z.array(z.unknown()).optional(),
  allOf: z.array(z.unknown()).optional(),
  items: z.unknown().optional(),
  properties: z.record(z.string(), z.unknown()).optional(),
  required: z.array(z.string()).optional(),
  format: z.string().optional(),
  description: z.string().optional(),
  minimum: z.number().optional(),
  maximum: z.number().optional(),
  exclusiveMinimum: z.number().optional(),
  exclusiveMaximum: z.number().optional(),
  minLength: z.number().optional(),
  maxLength: z.number().optional(),
  minItems: z.number().optional(),
  maxItems: z.number().optional(),
});
type Schema = z.infer<typeof schema>;

const read = (raw: unknown): Schema => schema.catch({}).parse(raw);
export const anchorOf = (name: string): string => `schema-${name}`;
const word = (value: unknown): Html => html`<code>${JSON.stringify(value)}</code>`;
const joined = (pieces: readonly Html[], between: string): Html => html`${pieces.map((p, i) => (i === 0 ? p : html`${between}${p}`))}`;

/** The type of a value in one line of words, with a link where it has a name. */
export function typeOf(raw: unknown): Html {
  const s = read(raw);
  const choices = s.anyOf ?? s.oneOf;
  if (s.$ref !== undefined) {
    const name = s.$ref.split('/').at(-1) ?? '';
    return html`<a href="#${anchorOf(name)}">${name}</a>`;
  }
  if (s.const !== undefined) return word(s.const);
  if (s.enum !== undefined) return joined(s.enum.map(word), ' or ');
  if (choices !== undefined) return joined(choices.map(typeOf), ' or ');
  if (s.allOf !== undefined) return joined(s.allOf.map(typeOf), ' and ');
  const types = [s.type ?? []].flat();
  if (types.includes('array')) return html`list of ${typeOf(s.items)}${bounds(s.minItems, s.maxItems, 'items')}`;
  if (types.length === 0) return html`any value`;
  const length = bounds(s.minLength, s.maxLength, 'characters');
  return html`${types.join(' or ')}${s.format === undefined ? '' : ` (${s.format})`}${length}${range(s)}`;
}

function bounds(least: number | undefined, most: number | undefined, unit: string): string {
  if (least === undefined && most === undefined) return '';
  if (most === undefined) return `, at least ${least} ${unit}`;
  return least === undefined ? `, at most ${most} ${unit}` : `, ${least} to ${most} ${unit}`;
}

/** The whole numbers that every number is within say nothing. */
function range({ minimum, maximum, exclusiveMinimum, exclusiveMaximum }: Schema): string {
  const says = [
    ['≥', minimum],
    ['>', exclusiveMinimum],
    ['≤', maximum],
    ['<', exclusiveMaximum],
  ] as const;
  return says.map(([sign, n]) => (n === undefined || Math.abs(n) === Number.MAX_SAFE_INTEGER ? '' : `, ${sign} ${n}`)).join('');
}

/** The fields of an object, those of objects inside it indented below; one line for anything else. */
export function fieldsOf(raw: unknown): Html {
  const rows = rowsOf(raw, 0);
  if (rows.length === 0) return html`<p>${typeOf(raw)}</p>`;
  return html`<table>
    <thead>
      <tr>
        <th scope="col">field</th>
        <th scope="col">what it is</th>
        <th scope="col">what it means</th>
      </tr>
    </thead>
    <tbody>
      ${rows}
    </tbody>
  </table>`;
}

const deepest = 5;

function rowsOf(raw: unknown, depth: number): Html[] {
  const { properties, required = [], items, anyOf, oneOf } = read(raw);
  if (depth > deepest) return [];
  if (properties === undefined) {
    // the fields of what a list holds, and of each of several that it may be
    return [items, ...(anyOf ?? oneOf ?? [])].flatMap((inner) => (inner === undefined ? [] : rowsOf(inner, depth)));
  }
  return Object.entries(properties).flatMap(([name, inner]) => {
    const says = read(inner).description;
    const row = html`<tr>
      <th scope="row" class="d${depth}">${name}${required.includes(name) ? nothing : html` <span class="faint">may be left out</span>`}</th>
      <td>${typeOf(inner)}</td>
      <td>${says ?? ''}</td>
    </tr>`;
    return [row, ...rowsOf(inner, depth + 1)];
  });
}
