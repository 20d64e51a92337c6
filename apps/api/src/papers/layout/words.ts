import { official, phrase, type phraseGroups, type PhraseKey } from '@bakehouse/records';

type Group = Exclude<keyof typeof phraseGroups, symbol | number>;

/** Any value of a group, known or not: `official` and `phrase` both spell out a value that has no phrase. */
const key = (group: Group, value: string): PhraseKey => `${group}.${value}` as PhraseKey;

/** A value as a printed paper writes it. */
export const onPaper = (group: Group, value: string): string => official(key(group, value));
/** A value as a screen writes it, where the short word is enough. */
export const inShort = (group: Group, value: string): string => phrase(key(group, value));
