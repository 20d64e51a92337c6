import type { Content, Node } from './content.js';

/** Sentences that would stand in a table many times: each is said once below it, by its number. */
export interface Notes {
  /** The sentence itself, or the number of the note that holds it. */
  readonly inPlaceOf: (sentence: string) => string;
  readonly below: readonly Content[];
}

const short = 24;

/** Of sentences as they come, those that come more than once and are longer than their number would be. */
export function notesOf(sentences: readonly string[]): Notes {
  const seen = new Set<string>();
  const twice = new Set(sentences.filter((s) => s.length > short && (seen.has(s) || !seen.add(s))));
  const numbers = new Map([...new Set(sentences.filter((s) => twice.has(s)))].map((s, i) => [s, i + 1]));
  return {
    inPlaceOf: (sentence) => (numbers.has(sentence) ? `note ${numbers.get(sentence)}` : sentence),
    below: [...numbers].map(([sentence, n]): Node => ({ text: [{ text: `Note ${n}. `, bold: true }, sentence], style: 'small' })),
  };
}
