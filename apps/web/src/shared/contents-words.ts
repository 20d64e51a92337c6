import type { CounterView } from '@bakehouse/contracts';
import { type annexTwo, type Allergen } from '@bakehouse/kernel';
import { phrase } from '@bakehouse/records';
import { type CounterAnswer } from '@bakehouse/views';
import type { Shape, Tone } from '../ui';

export type Product = CounterView['products'][number];
export type Entry = (typeof annexTwo)[number];

export const marks: Readonly<Record<CounterAnswer, { readonly shape: Shape; readonly tone: Tone; readonly word: string }>> = {
  contains: { shape: 'full', tone: 'calm', word: 'contains' },
  'may-contain': { shape: 'part', tone: 'calm', word: 'may contain' },
  unknown: { shape: 'unknown', tone: 'ask', word: 'not known' },
  not: { shape: 'empty', tone: 'calm', word: 'not used in it, by checked specifications' },
};
export const order = ['contains', 'may-contain', 'unknown', 'not'] as const satisfies readonly CounterAnswer[];

/** The most careful of the answers: a group is as bad as the worst of it. */
export const worstOf = (p: Product, members: readonly Allergen[]): CounterAnswer =>
  order.find((a) => members.some((m) => p.answers[m] === a)) ?? 'unknown';

/** A legal entry by its plain name; cereals and nuts stay a group to choose from, each is named in the answer. */
export const entryName = ({ entry, members }: Entry): string =>
  members.length === 1 && members[0] ? phrase(`allergen.${members[0]}`) : entry === 'nuts' ? 'nuts' : 'gluten';

export const named = (allergens: readonly Allergen[]): string => allergens.map((a) => phrase(`allergen.${a}`)).join(', ');

/** Said where food contains by what was used what its product does not say by formula. */
export const unsaidText = (name: string, allergens: readonly Allergen[]): string =>
  `${name}: contains or may contain ${named(allergens)} by what was used, which its formula does not say`;

/** What is sure of a lot's allergens first, then what may be; that none is in it only where all of it was checked. */
export function allergensText(
  { contains, may }: Readonly<Record<'contains' | 'may', readonly Allergen[]>>,
  checked: boolean,
  rest: string,
): { readonly says: string; readonly more: string | null } {
  const [sure, perhaps] = [contains.length > 0 ? `Contains ${named(contains)}` : '', may.length > 0 ? `may contain ${named(may)}` : ''];
  const [first = checked ? 'none of the list' : 'not known', ...more] = [sure, perhaps].filter((t) => t !== '');
  return { says: first, more: [...more, rest].filter((t) => t !== '').join('; ') || null };
}
