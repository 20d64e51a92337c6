import { kinds } from './kinds.js';
import { allergens } from './phrases/allergens.js';
import { control } from './phrases/control.js';
import { goods } from './phrases/goods.js';
import { house } from './phrases/house.js';
import type { Words } from './phrases/say.js';
import type { Finding } from './rows/baking.js';

/** Groups of values that have words, by what they are values of. */
export const phraseGroups = { ...control, ...house, ...goods, allergen: allergens } as const;
type Groups = typeof phraseGroups;

/** "group.value", such as `verdict.within`; a kind is `kind.<name>`. */
export type PhraseKey = { [G in keyof Groups]: `${G}.${Extract<keyof Groups[G], string>}` }[keyof Groups] | `kind.${string}`;

const words = new Map<string, Words>([
  ...Object.entries(phraseGroups).flatMap(([group, values]) =>
    Object.entries(values).map(([value, of]): [string, Words] => [`${group}.${value}`, of]),
  ),
  ...kinds.map(({ name, phrase: plain, official: paper }): [string, Words] => [`kind.${name}`, { plain, official: paper }]),
]);

/** Every key that has words. */
export const phraseKeys: readonly string[] = [...words.keys()];

/** Plain words for a screen. A kind that this device does not know yet is called by its own name, spelt out. */
export function phrase(key: PhraseKey): string {
  return wordsOf(key).plain;
}

/** What speaks against food, in a few words. */
export const findingText = ({ code, what }: Pick<Finding, 'code' | 'what'>): string =>
  `${phrase(`finding.${code}`)}${what === null ? '' : `: ${what}`}`;

/** Official words for a printed paper. */
export function official(key: PhraseKey): string {
  return wordsOf(key).official;
}

function wordsOf(key: string): Words {
  const name = key.slice(key.indexOf('.') + 1).replaceAll('-', ' ');
  return words.get(key) ?? { plain: name, official: name };
}
