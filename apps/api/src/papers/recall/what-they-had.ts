import type { RecallView } from '@bakehouse/contracts';
import { dayText, siteDay } from '@bakehouse/kernel';
import { amountOf, code, strong, sure, type Content } from '../layout/index.js';
import { codeText, type CasePaper } from './case-paper.js';

type Contact = RecallView['trace']['contacts'][number];
type Line = Contact['lines'][number];

/** What one contact received: certain and possible apart, each product with its lots and their days. */
export function whatTheyHad(paper: CasePaper, { lines, piecesUnknown }: Contact): Content[] {
  return [
    ...[true, false].flatMap((certain): Content[] => {
      const some = lines.filter((l) => l.certain === certain);
      if (some.length === 0) return [];
      const names = [...new Set(some.map((l) => l.name))];
      return [
        { text: sure(certain), style: 'cell' },
        ...names.flatMap((name) =>
          product(
            paper,
            name,
            some.filter((l) => l.name === name),
          ),
        ),
      ];
    }),
    ...(piecesUnknown ? [strong('some amounts not known')] : []),
  ];
}

function product(paper: CasePaper, name: string, lines: readonly Line[]): Content[] {
  const days = [...new Set(lines.map((l) => dayOf(paper, l.at)))];
  const when = { text: days.length > 2 ? `${days[0]} to ${days.at(-1)}` : days.join(', '), style: 'cell' };
  return [{ text: [{ text: name, bold: true }, ', ', ...eachLot(lines)], style: 'cell' }, when];
}

/** `21-tartlet: 16 pieces; 22-tartlet: 12 pieces` */
const eachLot = (lines: readonly Line[]): Content[] =>
  lines.flatMap((l, i) => [...(i === 0 ? [] : ['; ']), code(codeText(l.code)), `: ${amountOf(l.pieces, l.mg)}`]);

const dayOf = (paper: CasePaper, at: string): string => dayText(siteDay(at, paper.clockOf('')));
