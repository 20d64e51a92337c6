import type { RecallView } from '@bakehouse/contracts';
import { dayText, siteDay } from '@bakehouse/kernel';
import {
  amountOf,
  box,
  code,
  field,
  fields,
  lines,
  onPaper,
  paragraph,
  small,
  steps,
  strong,
  sure,
  table,
  type Content,
} from '../layout/index.js';
import { codeText, lotOf, toBeDone, type CasePaper } from './case-paper.js';
import { datesOf, harmText, numbersOf } from './notice.js';

type Contact = RecallView['trace']['contacts'][number];
type Line = Contact['lines'][number];

/** What one customer is sent: what they had, why it comes back, what to do with it and whom to ring. Nothing in it is about another customer, nor about what others had. */
export function customerNotice(paper: CasePaper, contact: Contact): Content[] {
  const { recall, business } = paper;
  return [
    box([
      { text: toBeDone(paper, 'STOP. Do not sell, serve, use, send out or give away the food listed here.'), style: 'loud' },
      steps([
        'Look for the products and lot codes below. If you cannot read a code, treat the food as listed.',
        'Keep it apart, mark it DO NOT USE, and store it at its proper temperature. Do not throw it away or return it until we tell you how.',
        'If you have passed any on, inform those people now.',
        'Tell us today how much is left, even if it is none.',
      ]),
    ]),
    paragraph([{ text: `${onPaper('hazard', recall.hazard)}: ${recall.hazardName}. `, bold: true }, harmText(paper)]),
    table<Line>(
      [
        { title: 'Product', width: '*', of: (l) => strong(l.name) },
        { title: 'Lot code', width: 110, of: (l) => code(codeText(l.code)) },
        {
          title: 'Dates on it',
          width: 120,
          of: (l) =>
            lines(
              datesOf(
                paper,
                l.lots.flatMap((lot) => lotOf(paper, lot) ?? []),
              ),
            ),
        },
        { title: 'Delivered', width: 70, of: (l) => dayText(siteDay(l.at, paper.clockOf(''))) },
        {
          title: 'How much',
          width: 60,
          right: true,
          of: (l) => (l.pieces === null && l.mg === null ? 'not known' : amountOf(l.pieces, l.mg)),
        },
        { title: 'How sure', width: 46, of: (l) => ({ text: sure(l.certain), style: 'cell' }) },
      ],
      contact.lines,
      '',
    ),
    small([sure(false), ': by contact, or as one of several lots. Treat it in the same way.']),
    {
      unbreakable: true,
      stack: [
        { text: `Ring ${business}`, style: 'who' },
        ...numbersOf(paper),
        ...(numbersOf(paper).length > 0 ? [] : [fields(field('telephone', 140))]),
        fields(field('left here', 100), field('sold or served', 100), field('passed on to', 140)),
        fields(field('signed', 160), field('date and time', 130)),
      ],
    },
  ];
}
