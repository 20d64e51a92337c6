import type { DoubtView } from '@bakehouse/contracts';
import { doubtText } from '@bakehouse/views';
import type { Node } from './content.js';
import { onPaper } from './words.js';

interface Judged {
  readonly verdict: string;
  readonly doubt: DoubtView | null;
}

/** A verdict in words, or why it says nothing; what speaks against the food or the reading in bold capitals. */
export function verdictText({ verdict, doubt }: Judged, timeOf: (at: string) => string): Node {
  if (doubt !== null) return { text: doubtText(doubt, timeOf(doubt.at)).toUpperCase(), style: 'cell', bold: true };
  const text = onPaper('verdict', verdict);
  return verdict === 'outside' || verdict === 'not-believable'
    ? { text: text.toUpperCase(), style: 'cell', bold: true }
    : { text, style: 'cell' };
}
