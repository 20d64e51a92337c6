import { aiEntries, entryAtStartOf } from './ai-table.js';
import type { Element, ElementProblem } from './elements.js';

/** ASCII 29, by which a scanner passes on FNC1. */
export const fnc1 = '\u001d';

export interface ReadElements {
  readonly elements: readonly Element[];
  readonly problems: readonly ElementProblem[];
}

const broken = (says: string, ai: string | null = null, rule: 'form' | 'unknown-ai' = 'form'): ElementProblem => ({
  rule,
  ai,
  index: null,
  says,
});

/** The elements as a scanner sends them: FNC1 after each one whose length is not predefined, except the last. */
export function elementString(elements: readonly Element[]): string {
  return elements
    .map(({ ai, value }, i) => `${ai}${value}${aiEntries.get(ai)?.predefined === true || i === elements.length - 1 ? '' : fnc1}`)
    .join('');
}

/** The elements as people write them, AIs in brackets; a bracket in the data is written \( to tell it from an AI's. */
export function bracketed(elements: readonly Element[]): string {
  return elements.map(({ ai, value }) => `(${ai})${value.replaceAll('(', '\\(')}`).join('');
}

/** Reads an element string with FNC1 as ASCII 29. An element whose length is predefined takes that many characters, whatever follows. */
export function readElementString(text: string): ReadElements {
  const elements: Element[] = [];
  let rest = text;
  while (rest !== '') {
    const entry = entryAtStartOf(rest);
    if (entry === undefined)
      return { elements, problems: [broken(`no application identifier begins "${shown(rest)}"`, null, 'unknown-ai')] };
    const data = rest.slice(entry.ai.length);
    const separator = data.indexOf(fnc1);
    const end = separator < 0 ? data.length : separator;
    const length = entry.predefined ? Math.min(entry.maxLength, end) : end;
    elements.push({ ai: entry.ai, value: data.slice(0, length) });
    rest = data.slice(data[length] === fnc1 ? length + 1 : length);
  }
  return { elements, problems: elements.length === 0 ? [broken('there is nothing in it')] : [] };
}

/** Reads elements with their AIs in brackets. A bracket in the data is written \(; a pair around anything but digits needs no \. */
export function readBracketed(text: string): ReadElements {
  const elements: Element[] = [];
  let rest = text;
  while (rest !== '') {
    const [whole, ai, data] = /^\((\d{2,4})\)((?:\\\(|[^(\\]|\((?=[^()]*[^()\d][^()]*\)))*)/.exec(rest) ?? [];
    if (whole === undefined || ai === undefined || data === undefined) {
      return { elements, problems: [broken(`"${shown(rest)}" does not begin with an application identifier in brackets`)] };
    }
    elements.push({ ai, value: data.replaceAll('\\(', '(') });
    rest = rest.slice(whole.length);
  }
  return { elements, problems: [] };
}

const shown = (text: string): string => (text.length > 24 ? `${text.slice(0, 24)}…` : text).replaceAll(fnc1, '␝');
