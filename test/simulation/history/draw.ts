import { picked, type There } from './there.js';

const uuid = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/;
/** What else may stand in a field, by the kind or for any. */
const instead: Readonly<Record<string, readonly unknown[]>> = {
  holds: [true, false],
  certain: [true, false],
  unattended: [true, false],
  covers: ['this-alone', 'what-came-of-it'],
  class: ['ccp', 'oprp', 'process-check'],
  'receipt-decided.decision': ['accepted', 'accepted', 'accepted', 'refused'],
  'goods-returned.disposition': ['on-hand', 'waste'],
  /** Of another lot, it would be none of this one's. */
  'goods-returned.departure': [null],
  'put-on-counter.way': ['on', 'off'],
  'stage-passed.way': ['in', 'out'],
  'sent-out.channel': ['dispatch', 'waste', 'staff'],
  'reading-not-taken.answer': ['not-done', 'not-needed', 'not-known'],
  'corrective-action-taken.type': ['adjusted', 'back-in-the-oven', 'told-somebody'],
};
const cores = ['80', '92.9', '93.4', '95', '97'];

export interface Drawing {
  readonly kind: string;
  readonly random: () => number;
  readonly there: There;
  /** The ids that stay as they are: what a device chose for this entry. */
  readonly own: ReadonlySet<string>;
}

/** A payload as it might have been: about other things of the same type, the same thing the same everywhere in it and two things two, with other amounts and answers. */
export function drawn(payload: unknown, { kind, random, there, own }: Drawing): unknown {
  const weighed = JSON.stringify(payload).includes('"unit":"g"');
  const [named, names] = [idsIn(payload), new Map<string, string>()];
  const another = (id: string): string => {
    const known = names.get(id);
    if (known !== undefined) return known;
    const other = own.has(id) || random() < 0.2 ? id : there.like(id, weighed, random);
    const name = named.has(other) || [...names.values()].includes(other) ? id : other;
    names.set(id, name);
    return name;
  };
  const value = (key: string, was: unknown, beside: Readonly<Record<string, unknown>>): unknown => {
    const choices = instead[`${kind}.${key}`] ?? instead[key];
    if (choices !== undefined) return picked(choices, random);
    if (typeof was === 'string' && uuid.test(was)) return another(was);
    if (key === 'pieces' && typeof was === 'number') return 1 + Math.floor(random() * 14);
    if (key !== 'figure' || typeof was !== 'string') return inside(key, was);
    if (beside['unit'] === 'degC') return kind === 'reading-taken' ? picked(cores, random) : was;
    return String(Math.ceil(Number(was) * (0.2 + random())));
  };
  const inside = (key: string, was: unknown): unknown => {
    if (Array.isArray(was)) return was.map((one) => value(key, one, {}));
    if (typeof was !== 'object' || was === null) return was;
    return Object.fromEntries(Object.entries(was).map(([name, one]) => [name, value(name, one, { ...was })]));
  };
  return inside('', payload);
}

/** The ids that a payload names and nothing here has: its device chose them. */
export const chosenIn = (payload: unknown, there: There): ReadonlySet<string> =>
  new Set([...idsIn(payload)].filter((id) => there.type(id) === undefined));

const idsIn = (payload: unknown): ReadonlySet<string> =>
  new Set(JSON.stringify(payload).match(/[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}/g) ?? []);
