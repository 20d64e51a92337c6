import type { RecallView } from '@bakehouse/contracts';
import type { BalanceCause, Measure } from '@bakehouse/records';
import { amountOf, code, type Content, type Node, heading, inShort, lines, paragraph, strong, table } from '../layout/index.js';
import { codeText, type CasePaper } from './case-paper.js';

type Trace = RecallView['trace'];
/** An amount in its measure. */
export const measured = (measure: Measure, amount: number | null): string =>
  amount === null ? 'not known' : measure === 'mg' ? amountOf(null, amount) : amountOf(amount, null);

export function balanceSection(paper: CasePaper): Content[] {
  const { suspectBalances, doesNotAddUp, suspects } = paper.recall.trace;
  const all = [...suspectBalances, ...doesNotAddUp.filter((b) => !b.lots.every((lot) => suspects.includes(lot)))];
  return [
    heading('Balances that do not add up'),
    paragraph(
      'All suspected lots, and every other lot in scope with an amount unaccounted for or in excess. The target is 100 % accounted for.',
    ),
    table<Trace['doesNotAddUp'][number]>(
      [
        { title: 'Lot', width: '*', of: (b) => lines([strong(b.name), code(codeText(b.code))]) },
        { title: 'Received or made', width: 60, right: true, of: ({ balance: b }) => measured(b.measure, b.received) },
        { title: 'Used and dispatched', width: 60, right: true, of: ({ balance: b }) => goneOf(b) },
        {
          title: 'In the house',
          width: 70,
          right: true,
          of: ({ balance: b }) =>
            b.onHand
              ? `${measured(b.measure, b.onHand.amount)} ${b.onHand.by === 'count' ? 'counted' : 'by the records'}`
              : notKnownLeft(b),
        },
        { title: 'Unaccounted', width: 60, right: true, of: ({ balance: b }) => unaccounted(b) },
        {
          title: 'Accounted for',
          width: 50,
          right: true,
          of: ({ balance: b }) =>
            b.accountedBasisPoints === null ? 'not known' : `${atLeast(b)}${(b.accountedBasisPoints / 100).toFixed(2)} %`,
        },
        {
          title: 'Likely cause',
          width: 95,
          of: ({ balance: b }) =>
            lines(b.likelyCauses.slice(0, 3).map((c) => `${measured(b.measure, c.amount)} ${causeText(c.cause)}, ${c.times} ×`)),
        },
      ],
      all,
      'Every lot in scope that has been counted adds up.',
    ),
  ];
}

const goneOf = (b: Trace['doesNotAddUp'][number]['balance']): Node =>
  lines([
    `${atLeast(b)}${measured(b.measure, b.gone)}`,
    ...(b.withoutAmount === 0 ? [] : [`without an amount: ${b.withoutAmount} ×`]),
    ...(b.perhaps === 0 ? [] : [`possibly up to ${measured(b.measure, b.perhaps)} more`]),
    ...(b.lost === 0 ? [] : [`lost in making: ${measured(b.measure, b.lost)}`]),
  ]);
const unaccounted = (b: Trace['doesNotAddUp'][number]['balance']): string =>
  b.unaccounted === null
    ? 'not known'
    : b.unaccounted < 0
      ? `${measured(b.measure, -b.unaccounted)} in excess`
      : `${b.unaccounted > 0 && b.withoutAmount > 0 ? 'up to ' : ''}${measured(b.measure, b.unaccounted)}`;
const atLeast = (b: Trace['doesNotAddUp'][number]['balance']): string => (b.withoutAmount === 0 ? '' : 'at least ');
const notKnownLeft = (b: Trace['doesNotAddUp'][number]['balance']): string =>
  b.atMost === null ? 'not known' : `not known, at most ${measured(b.measure, b.atMost)}`;
const causeText = (cause: BalanceCause): string => (cause === 'not-known' ? 'amount not known' : inShort('how', cause));
