import { official, phrase, type phraseGroups, type PhraseKey } from '@bakehouse/records';

type Group = Exclude<keyof typeof phraseGroups, symbol | number>;

/** Any value of a group, known or not: both `official` and `phrase` spell out a value that they have no words for. */
const key = (group: Group, value: string): PhraseKey => `${group}.${value}` as PhraseKey;

/** What a printed paper calls a value. */
export const onPaper = (group: Group, value: string): string => official(key(group, value));
/** What a screen calls it, where the short word is enough. */
export const inShort = (group: Group, value: string): string => phrase(key(group, value));
