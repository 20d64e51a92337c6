import { countText, formatGrams } from '@bakehouse/kernel';
import { kinds } from './kinds.js';
import { allergens } from './phrases/allergens.js';
import { control } from './phrases/control.js';
import { goods } from './phrases/goods.js';
import { house } from './phrases/house.js';
import type { Words } from './phrases/say.js';
import type { Finding } from './rows/baking.js';
import type { DecidedPart } from './standing/decided-part.js';

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

/** What speaks against food, in a few words, without the full stop that somebody may have typed: more follows it in the same sentence. */
export const findingText = ({ code, what }: Pick<Finding, 'code' | 'what'>): string =>
  `${phrase(`finding.${code}`)}${what === null ? '' : `: ${what.replace(/[.\s]+$/, '')}`}`;

const amountText = ({ pieces, mg }: Pick<DecidedPart['decided'][number], 'pieces' | 'mg'>): string =>
  pieces !== null ? countText(pieces, 'piece') : mg === null ? 'an amount that is not known' : formatGrams(mg, 'metric');

/** How much of some food was decided on and how, and how much is left to decide on. */
export function partText({ decided, left, atMost }: DecidedPart): string {
  const done = decided.map((d) => `${amountText(d)} ${phrase(`disposition.${d.decision}`)}`).join(', ');
  return left === null
    ? `${done}; how much is left to decide on is not known`
    : `${done}; ${atMost ? 'at most ' : ''}${amountText(left)} not decided on`;
}

/** What speaks against food, with what was decided about a part of it already. */
export const concernText = ({
  type,
  what,
  part,
}: {
  readonly type: Finding['code'];
  readonly what: string | null;
  readonly part: DecidedPart | null;
}): string => `${findingText({ code: type, what })}${part === null ? '' : `; ${partText(part)}`}`;

/** Official words for a printed paper. */
export function official(key: PhraseKey): string {
  return wordsOf(key).official;
}

function wordsOf(key: string): Words {
  const name = key.slice(key.indexOf('.') + 1).replaceAll('-', ' ');
  return words.get(key) ?? { plain: name, official: name };
}
