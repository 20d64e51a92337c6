import type { InspectedDecision, InspectedWaste } from '@bakehouse/contracts';
import { official, type PhraseKey } from '@bakehouse/records';
import { amountOf, lines, onPaper, strong, table, type Content } from '../layout/index.js';
import { happenedText, named, whenColumn, type Pack } from './pack.js';
import { sectionHead } from './sections.js';

/** What was decided about food in the period, and what was thrown away without a decision. */
export function foodSections(pack: Pack): Content[] {
  const { decisions, waste } = pack.view;
  return [
    sectionHead('decisions'),
    table<InspectedDecision>(
      [
        {
          title: 'When, signed by',
          width: 84,
          of: (d) => lines([happenedText(pack, d), d.signedBy ?? 'name withheld']),
        },
        { title: 'Food', width: 120, of: (d) => named(d.food) },
        {
          title: 'Decision',
          width: 105,
          of: (d) => lines([strong(onPaper(d.type, d.decision)), amountDecided(d)]),
        },
        { title: 'About', width: 95, of: (d) => d.because ?? '' },
        { title: 'Reason', width: '*', of: (d) => (d.why === null ? 'not recorded' : `“${d.why}”`) },
      ],
      decisions,
      'Nothing was decided about food in this period.',
    ),
    sectionHead('waste'),
    table<InspectedWaste>(
      [
        whenColumn(pack, 84),
        { title: 'Food', width: 150, of: (w) => strong(w.food.length === 1 ? (w.food[0] ?? '') : `one of: ${w.food.join('; ')}`) },
        { title: 'Amount', width: 60, right: true, of: (w) => amountOf(w.pieces, w.mg) },
        { title: 'Where it went', width: 95, of: (w) => onPaper('channel', w.channel) },
        {
          title: 'Record, reason',
          width: '*',
          of: (w) => lines([official(`kind.${w.record}` as PhraseKey), ...(w.note === null ? [] : [`“${w.note}”`])]),
        },
      ],
      waste,
      'Nothing is recorded as thrown away in this period.',
    ),
  ];
}

const amountDecided = ({ pieces, mg }: InspectedDecision): string => (pieces === null && mg === null ? 'all of it' : amountOf(pieces, mg));
