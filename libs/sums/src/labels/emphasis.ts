import type { Allergen } from '@bakehouse/kernel';

/** The word that a label uses for each allergen. */
export const allergenWord = {
  wheat: 'wheat',
  rye: 'rye',
  barley: 'barley',
  oats: 'oats',
  crustaceans: 'crustaceans',
  eggs: 'egg',
  fish: 'fish',
  peanuts: 'peanuts',
  soybeans: 'soya',
  milk: 'milk',
  almond: 'almonds',
  hazelnut: 'hazelnuts',
  walnut: 'walnuts',
  cashew: 'cashew nuts',
  pecan: 'pecan nuts',
  'brazil-nut': 'Brazil nuts',
  pistachio: 'pistachio nuts',
  macadamia: 'macadamia nuts',
  celery: 'celery',
  mustard: 'mustard',
  sesame: 'sesame',
  sulphites: 'sulphites',
  lupin: 'lupin',
  molluscs: 'molluscs',
} as const satisfies Record<Allergen, string>;

const patterns: Readonly<Record<Allergen, string>> = {
  wheat: '(?:whole)?wheat\\w*',
  rye: 'rye',
  barley: 'barley',
  oats: 'oat(?:s|meal)?',
  crustaceans: 'crustaceans?',
  eggs: 'eggs?',
  fish: 'fish',
  peanuts: 'peanuts?',
  soybeans: 'soya|soy|soy(?:a)?\\s?beans?',
  milk: '(?<!(?:coconut|almond|oat|soya|soy|rice|hazelnut|cashew)\\s)milk',
  almond: 'almonds?',
  hazelnut: 'hazelnuts?',
  walnut: 'walnuts?',
  cashew: 'cashews?(?:\\snuts?)?',
  pecan: 'pecans?(?:\\snuts?)?',
  'brazil-nut': 'brazil\\snuts?',
  pistachio: 'pistachios?(?:\\snuts?)?',
  macadamia: 'macadamias?(?:\\snuts?)?',
  celery: 'celery',
  mustard: 'mustard',
  sesame: 'sesame',
  sulphites: 'sul(?:ph|f)ites?|sul(?:ph|f)ur dioxide',
  lupin: 'lupine?',
  molluscs: 'molluscs?',
};

export interface Segment {
  readonly text: string;
  readonly emphasised: boolean;
}

interface Span {
  readonly start: number;
  readonly end: number;
}

function spansOf(name: string, allergens: readonly Allergen[]): { spans: Span[]; unnamed: Allergen[] } {
  const spans: Span[] = [];
  const unnamed: Allergen[] = [];
  for (const one of allergens) {
    const found = [...name.matchAll(new RegExp(`\\b(?:${patterns[one]})\\b`, 'gi'))].map((match) => ({
      start: match.index,
      end: match.index + match[0].length,
    }));
    if (found.length === 0) unnamed.push(one);
    spans.push(...found);
  }
  return { spans: spans.sort((a, b) => a.start - b.start || b.end - a.end), unnamed };
}

/**
 * A name with the words that name its allergens emphasised; an allergen that the name does not say follows in brackets: “butter (milk)”.
 * Regulation (EU) 1169/2011 Art. 21(1).
 */
export function emphasised(name: string, allergens: readonly Allergen[]): Segment[] {
  const { spans, unnamed } = spansOf(name, allergens);
  const segments: Segment[] = [];
  let at = 0;
  for (const { start, end } of spans) {
    if (start < at) continue;
    if (start > at) segments.push({ text: name.slice(at, start), emphasised: false });
    segments.push({ text: name.slice(start, end), emphasised: true });
    at = end;
  }
  if (at < name.length) segments.push({ text: name.slice(at), emphasised: false });
  for (const [index, one] of unnamed.entries()) {
    segments.push({ text: index === 0 ? ' (' : ', ', emphasised: false }, { text: allergenWord[one], emphasised: true });
  }
  return unnamed.length === 0 ? segments : [...segments, { text: ')', emphasised: false }];
}

/** Plain text with the emphasised words in capitals, for where there is no bold. */
export const inCapitals = (segments: readonly Segment[]): string =>
  segments.map((s) => (s.emphasised ? s.text.toUpperCase() : s.text)).join('');
