import type { RecallView } from '@bakehouse/contracts';
import { countText } from '@bakehouse/kernel';
import { stillThereText, toClear, wentUnnamed, wentUnnamedText, type ToClear } from '@bakehouse/views';
import { wallTime } from '../../platform/clock/index.js';
import {
  box,
  code,
  type Content,
  field,
  fields,
  inside,
  lines,
  type Node,
  type Notes,
  onPaper,
  paragraph,
  strong,
  sure,
  table,
  tick,
} from '../layout/index.js';
import { codeText, type CasePaper } from './case-paper.js';
import { notesOfLots, whatTheyHad } from './what-they-had.js';

type Contact = RecallView['trace']['contacts'][number];

/** The contact list in calling order, with room to tick and write. */
export function contactSection(paper: CasePaper): Content[] {
  const { contacts } = paper.recall.trace;
  const notes = notesOfLots(contacts);
  const certain = contacts.filter((r) => r.certain).length;
  return [
    box([
      {
        text: [
          { text: 'Say: ', bold: true },
          `“${paper.recall.practice ? 'This is a practice, do nothing with any food. ' : ''}${paper.business}. ${paper.recall.practice ? 'In a real case I would say: do' : 'Do'} not sell, serve, use or give away the products that I name. Keep them apart, at their proper temperature. How many are left, and who else has had them?” `,
          { text: 'Write down what they answer.', bold: true },
        ],
        style: 'step',
      },
    ]),
    ...ownShelves(paper),
    paragraph(
      `${countText(contacts.length, 'contact')}: ${certain} certainly received some, ${contacts.length - certain} possibly. Vulnerable consumers come first. Call from the top.`,
    ),
    contacts.length === 0
      ? paragraph('By the records none of it went to a customer with a name.')
      : {
          table: { widths: ['*'], dontBreakRows: true, body: contacts.map((r) => [{ stack: [contact(paper, r, notes), answers()] }]) },
          layout: 'rows',
          margin: [0, 2, 0, 8],
        },
    ...notes.below,
    {
      unbreakable: true,
      columns: [
        {
          stack: [
            inside(paper.recall.practice ? 'Practice: the authority, first' : 'The authority, first'),
            ...authorities(paper),
            fields(field('told at', 50), field('reference', 60)),
          ],
          width: '*',
        },
        { stack: [inside('Not by telephone'), ...unreached(paper)], width: '*' },
      ],
      columnGap: 20,
    },
    {
      text: [sure(true), ': by the records. ', sure(false), ': by contact, or as one of several lots. Treat it in the same way.'],
      margin: [0, 10, 0, 0],
    },
  ];
}

/** The authority of each site that the case reaches, with the numbers that are on record; a line to write on where there is none. */
function authorities({ recall: { sites } }: CasePaper): Content[] {
  const known = new Map(sites.flatMap(({ authority: a }) => (a === null ? [] : [[JSON.stringify(a), a] as const])));
  const without = sites.filter((s) => s.authority === null).map((s) => s.siteName);
  return [
    ...[...known.values()].flatMap(({ name, phone, outOfHours }): Content[] => [
      { text: name, style: 'who' },
      phone === null ? fields(field('telephone', 130)) : { text: phone, style: 'phone' },
      ...(outOfHours === null ? [] : [{ text: ['out of hours ', { text: outOfHours, bold: true }] }]),
    ]),
    ...(without.length > 0 || known.size === 0
      ? [paragraph(`Not on record${without.length > 0 ? ` for ${without.join(', ')}` : ''}.`), fields(field('telephone', 130))]
      : []),
  ];
}

/** The house's own shops and counters come before anybody who is rung: customers can still take it there. */
function ownShelves({ recall }: CasePaper): Content[] {
  const all = toClear(recall);
  if (all.length === 0) return [];
  return [
    inside(recall.practice ? 'Practice: what would be cleared first from our own counters' : 'First: clear our own counters'),
    table<ToClear>(
      [
        { title: 'What', width: 150, of: (c) => strong(c.name) },
        { title: 'Lot code', width: 90, of: (c) => code(codeText(c.code)) },
        { title: 'Where, and what to do', width: '*', of: (c) => lines(c.places.map(strong)) },
        { title: 'Done at', width: 60, of: () => '' },
      ],
      all,
      '',
    ),
  ];
}

const contact = (paper: CasePaper, r: Contact, notes: Notes): Node => ({
  columns: [
    { text: String(r.order), style: 'big', width: 22 },
    {
      stack: [
        ...(r.vulnerable ? [strong('Contact first: vulnerable consumers')] : []),
        { text: r.name ?? 'name withheld', style: 'who' },
        r.contactName ?? 'no contact person on record',
        ...(r.unattended ? [strong('LEFT UNATTENDED: may still be unopened')] : []),
      ],
      width: '*',
    },
    {
      stack: [
        r.phone === null ? { text: 'NO NUMBER ON RECORD', style: 'value' } : { text: r.phone, style: 'phone' },
        ...(r.calls.length === 0
          ? [{ text: 'not called yet', style: 'cell' }]
          : r.calls.flatMap((c): Content[] => [
              strong(
                `${wallTime(c.at, paper.zone)}: ${onPaper('contactAnswer', c.answer)}${c.piecesHeld === null ? '' : `, ${stillThereText({ piecesHeld: c.piecesHeld, pieces: r.pieces, piecesUnknown: r.piecesUnknown })}`}${afterClosing(paper, c.at)}`,
              ),
              ...(c.said === null ? [] : [{ text: `“${c.said}”`, style: 'cell' }]),
            ])),
      ],
      width: 132,
    },
    { stack: whatTheyHad(paper, r, notes), width: 146 },
  ],
  columnGap: 8,
});

/** Calls go on after a case was closed, and say so. */
const afterClosing = ({ recall: { closedAt } }: CasePaper, at: string): string =>
  closedAt !== null && at >= closedAt ? ', after the case was closed' : '';

const answers = (): Node => ({
  columns: [
    tick('told', 40),
    tick('no answer', 64),
    tick('message', 60),
    field('at', 36),
    field('by', 30),
    field('left', 28),
    field('passed on to', 58),
  ],
  columnGap: 7,
  margin: [0, 8, 0, 2],
});

/** Whom nobody can ring: customers without a number, and those whose names nobody knows. */
function unreached(paper: CasePaper): Content[] {
  const silent = paper.recall.trace.contacts.filter((r) => r.phone === null).map((r) => `${r.order}. ${r.name ?? 'name withheld'}`);
  const lines = wentUnnamed(paper.recall.trace.counter).map((w): Content => ({
    text: [`${onPaper('channel', w.way)}: ${wentUnnamedText(w)}, `, sure(w.certain)],
  }));
  return [
    ...(silent.length === 0 ? [] : [paragraph(`No number on record: ${silent.join('; ')}.`)]),
    ...lines,
    paragraph(
      lines.length === 0
        ? 'By the records none of it went to anybody whose name is not known.'
        : 'Their names are not known: a public notice reaches them. The times are under “Went to people nobody can name”.',
    ),
  ];
}
