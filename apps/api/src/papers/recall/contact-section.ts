import type { RecallView } from '@bakehouse/contracts';
import { countText } from '@bakehouse/kernel';
import { wallTime } from '../../platform/clock/index.js';
import {
  amountOf,
  box,
  type Content,
  field,
  fields,
  inside,
  type Node,
  type Notes,
  onPaper,
  paragraph,
  strong,
  sure,
  tick,
} from '../layout/index.js';
import type { CasePaper } from './case-paper.js';
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
          `“${paper.business}. Do not sell, serve, use or give away the products that I name. Keep them apart, at their proper temperature. How many are left, and who else has had them?” `,
          { text: 'Write down what they answer.', bold: true },
        ],
        style: 'step',
      },
    ]),
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
          stack: [inside('The authority'), fields(field('telephone', 130)), fields(field('told at', 50), field('reference', 60))],
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
          : r.calls.map((c) =>
              strong(
                `${wallTime(c.at, paper.zone)}: ${onPaper('contactAnswer', c.answer)}${c.piecesHeld === null ? '' : `, still holds ${amountOf(c.piecesHeld, null)}`}`,
              ),
            )),
      ],
      width: 132,
    },
    { stack: whatTheyHad(paper, r, notes), width: 146 },
  ],
  columnGap: 8,
});

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
  const nameless = paper.departures.filter((d) => d.customer === null && ['counter', 'stall', 'eaten-in', 'staff'].includes(d.channel));
  const lines = [...new Set(nameless.map((d) => d.channel))].flatMap((channel) =>
    [true, false].flatMap((certain): Content[] => {
      const of = nameless.filter((d) => d.channel === channel && d.certain === certain);
      if (of.length === 0) return [];
      const pieces = of.reduce((sum, d) => sum + (d.pieces ?? 0), 0);
      const some = of.some((d) => d.pieces === null) ? ', some amounts not known' : '';
      return [{ text: [`${onPaper('channel', channel)}: ${amountOf(pieces, null)}${some}, `, sure(certain)] }];
    }),
  );
  return [
    ...(silent.length === 0 ? [] : [paragraph(`No number on record: ${silent.join('; ')}.`)]),
    ...lines,
    paragraph(
      lines.length === 0
        ? 'By the records none of it went to customers without a name.'
        : 'Their names are not known: a public notice reaches them.',
    ),
  ];
}
