import { applicationIdentifiers } from './application-identifiers.js';

export type CharacterSet = 'N' | 'X' | 'Y' | 'Z';

/** One part of an element's data: a number of characters of a set, and the rules that apply to it. */
export interface Component {
  readonly set: CharacterSet;
  readonly min: number;
  readonly max: number;
  readonly optional: boolean;
  readonly rules: readonly string[];
}

/** What the dictionary says of one application identifier. */
export interface AiEntry {
  readonly ai: string;
  readonly title: string;
  /** Its length is predefined: no FNC1 is needed after it. */
  readonly predefined: boolean;
  /** May stand in the query of a Digital Link. */
  readonly linkAttribute: boolean;
  readonly components: readonly Component[];
  readonly minLength: number;
  readonly maxLength: number;
  /** All groups must be met; a group is met by any of its alternatives, an alternative by all of its AIs or patterns. */
  readonly requires: readonly (readonly (readonly string[])[])[];
  readonly excludes: readonly string[];
  /** For a Digital Link's primary key: the sequences of qualifiers that may follow it. */
  readonly linkQualifiers: readonly (readonly string[])[] | undefined;
}

function component(text: string): Component {
  const [, open, set = 'X', dots, length = '0', rules = ''] = /^(\[?)([NXYZ])(\.\.)?(\d+)\]?,?(.*)$/.exec(text) ?? [];
  const max = Number(length);
  const names = rules === '' ? [] : rules.split(',');
  return {
    set: set === 'N' || set === 'Y' || set === 'Z' ? set : 'X',
    min: dots === undefined ? max : 1,
    max,
    optional: open === '[',
    rules: names,
  };
}

function valuesOf(attributes: string, name: string): string[] {
  return attributes
    .split(' ')
    .filter((word) => word === name || word.startsWith(`${name}=`))
    .map((word) => word.slice(name.length + 1));
}

function aisOf(range: string): string[] {
  const [from = '', to = from] = range.split('-');
  return Array.from({ length: Number(to) - Number(from) + 1 }, (_, i) => String(Number(from) + i).padStart(from.length, '0'));
}

const entries = new Map<string, AiEntry>();
for (const [range, flags, specification, attributes, title] of applicationIdentifiers) {
  const components = specification.split(' ').map(component);
  const entry = {
    title,
    components,
    predefined: flags.includes('*'),
    linkAttribute: flags.includes('?'),
    minLength: components.reduce((sum, part) => sum + (part.optional ? 0 : part.min), 0),
    maxLength: components.reduce((sum, part) => sum + part.max, 0),
    requires: valuesOf(attributes, 'req').map((group) => group.split(',').map((all) => all.split('+'))),
    excludes: valuesOf(attributes, 'ex').flatMap((list) => list.split(',')),
    linkQualifiers: valuesOf(attributes, 'dlpkey').map((list) => list.split('|').map((way) => way.split(',').filter((ai) => ai !== '')))[0],
  };
  for (const ai of aisOf(range)) entries.set(ai, { ai, ...entry });
}

/** Every application identifier of the dictionary, ranges written out. */
export const aiEntries: ReadonlyMap<string, AiEntry> = entries;

/** The entry whose AI begins the text. No AI begins another, so there is at most one. */
export function entryAtStartOf(text: string): AiEntry | undefined {
  return [2, 3, 4].map((length) => entries.get(text.slice(0, length))).find((entry) => entry !== undefined);
}

/** Whether an AI is the one named, or fits a pattern such as 310n. */
export function fitsPattern(ai: string, pattern: string): boolean {
  return ai.length === pattern.length && [...pattern].every((letter, i) => (letter === 'n' ? /\d/.test(ai[i] ?? '') : letter === ai[i]));
}
