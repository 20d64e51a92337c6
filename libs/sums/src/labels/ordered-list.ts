import type { Allergen } from '@bakehouse/kernel';
import { emphasised, type Segment } from './emphasis.js';
import { byName, inOrder, type Listed, type ListedPart } from './ingredient-lines.js';
import { compare, fraction, minus, over, rounded, sumOf, times, zero, type Fraction } from '../bakery/fraction.js';

export type Regime = 'eu' | 'gb' | 'us';
export interface WaterFound {
  readonly grams: Fraction;
  readonly percent: Fraction;
  readonly declared: boolean;
  readonly why: string;
}
export interface Item {
  readonly name: string;
  readonly grams: number;
  readonly percent: number;
  readonly group: 'by-weight' | 'small';
  readonly allergens: Allergen[];
  readonly segments: Segment[];
}

const hundred = fraction(100);
const five = fraction(5);

/**
 * Added water as the law counts it: the finished product minus all other ingredients, never below zero. EU and GB: may be left out at up to 5 %
 * (Annex VII part A). US: left out only where none remains (FDA Food Labeling Guide on 21 CFR 101.4, from memory). Null where no water was added.
 */
export function waterIn(all: readonly Listed[], finishedWeight: Fraction, regime: Regime): WaterFound | null {
  if (!all.some((one) => one.water)) return null;
  const left = minus(finishedWeight, sumOf(all.filter((one) => !one.water).map((one) => one.weight)));
  const grams = left.num < 0n ? zero : left;
  const percent = times(over(grams, finishedWeight), hundred);
  if (grams.num === 0n) return { grams, percent, declared: false, why: 'None of the added water remains in the finished product.' };
  if (regime === 'us')
    return {
      grams,
      percent,
      declared: true,
      why: 'Some of the added water remains, so water is listed, in its place by the weight that went in.',
    };
  return compare(percent, five) > 0
    ? {
        grams,
        percent,
        declared: true,
        why: 'More than 5 % of the finished product is added water, so water is listed, by what remains of it.',
      }
    : { grams, percent, declared: false, why: 'Added water is not more than 5 % of the finished product, so it may be left out, and is.' };
}

function partSegments(parts: readonly ListedPart[], emphasise: boolean): Segment[] {
  if (parts.length === 0) return [];
  const inside = parts.flatMap((one, index) => [...(index === 0 ? [] : [plain(', ')]), ...nameSegments(one, emphasise)]);
  return [plain(' ('), ...inside, plain(')')];
}
const plain = (text: string): Segment => ({ text, emphasised: false });

/** The name, its own allergens that none of its parts shows, and its parts in brackets. */
function nameSegments(one: ListedPart, emphasise: boolean): Segment[] {
  const inside = new Set(one.parts.flatMap(allergensOf));
  const own = inOrder(one.allergens.filter((a) => !inside.has(a)));
  return [...(emphasise ? emphasised(one.name, own) : [plain(one.name)]), ...partSegments(one.parts, emphasise)];
}

/** All that an ingredient contains, its parts included. */
export function allergensOf(one: ListedPart): Allergen[] {
  return inOrder([...one.allergens, ...one.parts.flatMap(allergensOf)]);
}
export function mayContainOf(one: ListedPart): Allergen[] {
  return inOrder([...one.mayContain, ...one.parts.flatMap(mayContainOf)]);
}

/**
 * The list in descending order of weight, equal weights by name. `small`: below 2 % of the finished product (EU and GB, Annex VII part A), or not
 * above `usSmall` % (US, 21 CFR 101.4(a)(2)), a share that is judged exactly.
 */
export function orderedItems(
  all: readonly Listed[],
  water: WaterFound | null,
  finishedWeight: Fraction,
  regime: Regime,
  usSmall: number | undefined,
): Item[] {
  const counted = (one: Listed): Fraction => (one.water && water !== null && regime !== 'us' ? water.grams : one.weight);
  const isSmall = (percent: Fraction): boolean =>
    regime === 'us' ? usSmall !== undefined && compare(percent, fraction(usSmall)) <= 0 : compare(percent, fraction(2)) < 0;
  return all
    .filter((one) => !one.water || water?.declared === true)
    .map((one) => ({ one, weight: counted(one) }))
    .sort((a, b) => compare(b.weight, a.weight) || byName(a.one, b.one))
    .map(({ one, weight }) => {
      const percent = times(over(weight, finishedWeight), hundred);
      return {
        name: one.name,
        grams: rounded(weight, 3),
        percent: rounded(percent, 4),
        group: isSmall(percent) ? ('small' as const) : ('by-weight' as const),
        allergens: allergensOf(one),
        segments: nameSegments(one, regime !== 'us'),
      };
    });
}
