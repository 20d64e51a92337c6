import * as z from 'zod';
import { numberList } from '../number-list.js';

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
  numberList({
    least,
    most: 1_000_000,
    min: 0,
    max: heaviest,
    list: 'a list of weights in grams',
    figure: weightText,
    length: `at least ${least} ${least === 1 ? 'weight' : 'weights'} in grams, at most 1,000,000`,
    description: 'net weight of each pack, in grams',
  });

export const tooSmall = 'The rule covers nominal quantities of 5 g and more: below that it gives no tolerable error.';
