import { fieldsOf } from '../../shared/night/fields-of';

type Step = string | number;
/** One thing of a record that can be said anew: where it stands, what it is called, and what kind of value it has. */
export interface Leaf {
  readonly path: readonly Step[];
  /** What it is about: the line that it stands in. */
  readonly about: string;
  readonly name: string;
  readonly type: 'figure' | 'whole' | 'grams' | 'text' | 'date' | 'party' | 'place' | 'lot' | 'lots' | 'photo';
  readonly value: string | null;
  readonly unit: string | null;
}
/** A line that can be taken out of a record, where others stay. */
export interface Removable {
  readonly path: readonly Step[];
  readonly about: string;
}

const names: Readonly<Record<string, readonly [name: string, type: Leaf['type']]>> = {
  quantity: ['How much', 'figure'],
  scaling: ['Each', 'figure'],
  oldDough: ['Old dough kept', 'figure'],
  scrap: ['Scrap', 'figure'],
  left: ['Left in it', 'figure'],
  temperature: ['Temperature', 'figure'],
  setting: ['Oven set to', 'figure'],
  shown: ['Shown', 'figure'],
  value: ['Read', 'figure'],
  pieces: ['Pieces', 'whole'],
  heads: ['Heads', 'whole'],
  rejects: ['Rejects', 'whole'],
  minutes: ['Minutes', 'whole'],
  contactSeconds: ['Contact time, seconds', 'whole'],
  plannedMg: ['Planned, in grams', 'grams'],
  code: ['Lot code', 'text'],
  noteNumber: ['Number on the delivery note', 'text'],
  asWritten: ['As written', 'text'],
  chemical: ['Chemical', 'text'],
  dilution: ['Dilution', 'text'],
  useBy: ['Use by', 'date'],
  bestBefore: ['Best before', 'date'],
  supplier: ['From whom', 'party'],
  customer: ['To whom', 'party'],
  oven: ['Oven', 'place'],
  deck: ['Deck', 'place'],
  place: ['Where', 'place'],
  station: ['Where', 'place'],
  to: ['To', 'place'],
  from: ['From', 'place'],
  lot: ['Which lot', 'lot'],
  lots: ['Which lot', 'lots'],
  photo: ['Photo', 'photo'],
};
/** What names a line: the first of these that it has. */
const naming = ['material', 'product', 'lot', 'lots', 'run'] as const;

/** What can be said anew of a record’s content, and which of its lines can be left out. */
export function leavesOf(content: unknown, nameOf: (id: string) => string | null, made: (key: string) => boolean = () => true) {
  const leaves: Leaf[] = [];
  const removable: Removable[] = [];
  const walk = (value: unknown, path: readonly Step[], about: string): void => {
    for (const [key, inner] of Object.entries(fieldsOf(value))) {
      const at = [...path, key];
      const [name, type] = names[key] ?? [];
      const figure = fieldsOf(inner);
      if (name !== undefined && type === 'figure' && typeof figure['figure'] === 'string')
        leaves.push({ path: [...at, 'figure'], about, name, type, value: figure['figure'], unit: String(figure['unit']) });
      else if (Array.isArray(inner) && inner.every((one) => typeof one === 'object')) lines(inner, at);
      else if (name !== undefined && type !== undefined && type !== 'figure' && made(key) && fits(type, inner))
        leaves.push({ path: at, about, name, type, value: asText(inner, type), unit: null });
    }
  };
  const lines = (list: readonly unknown[], at: readonly Step[]): void =>
    list.forEach((one, i) => {
      const line = fieldsOf(one);
      const id = naming.map((key) => line[key]).find((v) => typeof v === 'string' || Array.isArray(v));
      const about = nameOf(String(Array.isArray(id) ? id[0] : id)) ?? '';
      if (list.length > 1) removable.push({ path: [...at, i], about });
      walk(one, [...at, i], about);
    });
  walk(content, [], '');
  return { leaves, removable };
}

/** A code that nobody had is named later, and no lot where none was said is opened: those have kinds of their own. */
const fits = (type: Leaf['type'], value: unknown): boolean => {
  if (type === 'lots') return Array.isArray(value) && value.length > 0;
  if (type === 'whole' || type === 'grams') return typeof value === 'number';
  if (type === 'lot' || type === 'place' || type === 'text') return typeof value === 'string';
  return typeof value === 'string' || value === null;
};

const asText = (value: unknown, type: Leaf['type']): string | null => {
  if (type === 'lots') return Array.isArray(value) && value.length === 1 ? String(value[0]) : '';
  if (value === null) return null;
  return type === 'grams' ? String(Number(value) / 1000) : String(value);
};

/** What a leaf’s text is as it is recorded. */
export function recorded({ type }: Leaf, text: string): unknown {
  if (type === 'whole') return Math.round(Number(text));
  if (type === 'grams') return Math.round(Number(text) * 1000);
  if (type === 'lots') return [text];
  if (type === 'figure') return text;
  return text === '' ? null : text;
}

/** The same content with one value put in another's place. */
export function withValue(content: unknown, [step, ...rest]: readonly Step[], value: unknown): unknown {
  if (step === undefined) return value;
  if (Array.isArray(content)) return content.map((one, i) => (i === step ? withValue(one, rest, value) : one));
  const of = fieldsOf(content);
  return { ...of, [step]: withValue(of[String(step)], rest, value) };
}

/** The same content without one line of it. */
export function without(content: unknown, [step, ...rest]: readonly Step[]): unknown {
  if (Array.isArray(content) && rest.length === 0) return content.filter((_, i) => i !== step);
  if (step === undefined) return content;
  const of = fieldsOf(content);
  return { ...of, [step]: without(of[String(step)], rest) };
}
