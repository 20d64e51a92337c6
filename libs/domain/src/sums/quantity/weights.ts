import * as z from 'zod';

const heaviest = 1e9;
const weightText = 'a weight in grams, from 0 to 1e9';
const nominalText = 'a weight in grams above 0, at most 1e9';

export const nominal = z
  .number({ error: nominalText })
  .positive(nominalText)
  .max(heaviest, nominalText)
  .meta({ description: 'the quantity marked on the pack, in grams' });

/** Net weights of single packs in grams; an empty pack is 0. */
export const weights = (least: number) =>
  z
    .array(z.number({ error: weightText }).min(0, weightText).max(heaviest, weightText), { error: 'a list of weights in grams' })
    .min(least, `at least ${least} ${least === 1 ? 'weight' : 'weights'} in grams`)
    .max(1_000_000, 'at most 1,000,000 weights')
    .meta({ description: 'net weight of each pack, in grams' });

export const tooSmall = 'The rule covers nominal quantities of 5 g and more: below that it gives no tolerable error.';
