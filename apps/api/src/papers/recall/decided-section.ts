import type { RecallView } from '@bakehouse/contracts';
import { countText } from '@bakehouse/kernel';
import { closedOverTexts } from '@bakehouse/views';
import { wallTime } from '../../platform/clock/index.js';
import { amountOf, heading, lines, onPaper, paragraph, strong, table, type Content } from '../layout/index.js';
import { named, type CasePaper } from './case-paper.js';

/** Of a closed case: when and by whom it was closed, and that what nobody decided about stays on hold. */
export function closedText({ recall, zone }: CasePaper): Content[] {
  const { closedAt, closedBy, closedOver, held, whyOnHold, conclusion } = recall;
  if (closedAt === null) return [];
  const by = closedBy === null ? '' : ` by ${closedBy}`;
  const left =
    held === 0 ? '' : ` ${countText(held, 'lot')} on hold, not all of it decided on.${whyOnHold === null ? '' : ` “${whyOnHold}”`}`;
  const found = conclusion === null ? '' : ` What was found and done: “${conclusion}”`;
  return [
    paragraph(`The case was closed on ${wallTime(closedAt, zone)}${by}.${found}${left}`),
    ...closedOverTexts(closedOver).map((text) => paragraph(text)),
  ];
}

/** What was decided in the case about each lot, how much of it was done away with, and what was decided after the close. */
export function decisionsSection(paper: CasePaper): Content[] {
  const { recall, zone } = paper;
  if (recall.decisions.length === 0) return [];
  return [
    heading('Decided in this case'),
    table<RecallView['decisions'][number]>(
      [
        { title: 'Lot', width: '*', of: (d) => strong(named(paper, d.lot)) },
        { title: 'Disposition', width: 110, of: (d) => onPaper('recallLotDecision', d.decision) },
        {
          title: 'How much, or what it covers',
          width: 120,
          of: (d) =>
            d.decision === 'freed'
              ? onPaper('covers', d.covers)
              : d.pieces === null && d.mg === null
                ? 'all of it'
                : amountOf(d.pieces, d.mg),
        },
        {
          title: 'When',
          width: 110,
          of: (d) =>
            lines([wallTime(d.at, zone), ...(recall.closedAt !== null && d.at >= recall.closedAt ? ['after the case was closed'] : [])]),
        },
      ],
      recall.decisions,
      'Nothing is decided yet.',
    ),
  ];
}
