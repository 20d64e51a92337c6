import type { RecallView } from '@bakehouse/contracts';
import { dayText, siteDay } from '@bakehouse/kernel';
import { amountOf, code, notesOf, strong, sure, type Content, type Notes } from '../layout/index.js';
import { codeText, type CasePaper } from './case-paper.js';

type Contact = RecallView['trace']['contacts'][number];
type Line = Contact['lines'][number];

/** What one contact received: certain and possible apart, each product with its lots and their days. */
export function whatTheyHad(paper: CasePaper, { lines, piecesUnknown }: Contact, notes: Notes): Content[] {
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
            notes,
          ),
        ),
      ];
    }),
    ...(piecesUnknown ? [strong('some amounts not known')] : []),
  ];
}

function product(paper: CasePaper, name: string, lines: readonly Line[], notes: Notes): Content[] {
  const days = [
    ...new Set(
      lines
        .map((l) => l.at)
        .sort()
        .map((at) => dayOf(paper, at)),
    ),
  ];
  const when = { text: days.length > 2 ? `${days[0]} to ${days.at(-1)}` : days.join(', '), style: 'cell' };
  const total = lines.reduce((n, l) => n + (l.pieces ?? 0), 0);
  const what: readonly Content[] =
    lines.length > most && lines.every((l) => l.pieces !== null)
      ? [`: ${amountOf(total, null)} of `, notes.inPlaceOf(lotsOf(lines))]
      : [', ', ...eachLot(lines)];
  return [{ text: [{ text: name, bold: true }, ...what], style: 'cell' }, when];
}

/** So many lots of a product are named with an amount each; where there are more, their sum, and the lots once for all who had them. */
const most = 2;
const lotsOf = (lines: readonly Line[]): string => `lots ${[...new Set(lines.map((l) => codeText(l.code)))].join(', ')}`;

/** The lots that more than one contact received several of. */
export function notesOfLots(contacts: readonly Contact[]): Notes {
  const groups = contacts.flatMap(({ lines }) =>
    [true, false].flatMap((certain) => {
      const some = lines.filter((l) => l.certain === certain);
      return [...new Set(some.map((l) => l.name))].map((name) => some.filter((l) => l.name === name));
    }),
  );
  return notesOf(groups.filter((g) => g.length > most && g.every((l) => l.pieces !== null)).map(lotsOf));
}

/** `21-tartlet: 16 pieces; 22-tartlet: 12 pieces` */
const eachLot = (lines: readonly Line[]): Content[] =>
  lines.flatMap((l, i) => [...(i === 0 ? [] : ['; ']), code(codeText(l.code)), `: ${amountOf(l.pieces, l.mg)}`]);

const dayOf = (paper: CasePaper, at: string): string => dayText(siteDay(at, paper.clockOf('')));
