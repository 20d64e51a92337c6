import type { InspectedRecall } from '@bakehouse/contracts';
import { countText } from '@bakehouse/kernel';
import { closedOverTexts, toReachText } from '@bakehouse/views';
import { amountOf, lines, onPaper, strong, table, type Content } from '../layout/index.js';
import { timeOf, type Pack } from './pack.js';
import { sectionHead } from './sections.js';

type Decision = InspectedRecall['decisions'][number];

/** Each recall that reached lots of the site: why, how far, whom it informed, what was decided and how it ended. */
export function recallSection(pack: Pack): Content[] {
  const { recalls } = pack.view;
  return [
    sectionHead('recalls'),
    table<InspectedRecall>(
      [
        {
          title: 'Opened',
          width: 84,
          of: (r) => lines([timeOf(pack, r.openedAt), r.openedBy ?? 'name withheld', ...(r.practice ? [strong('PRACTICE')] : [])]),
        },
        {
          title: 'Why',
          width: 130,
          of: (r) =>
            lines([strong(`${onPaper('hazard', r.hazard)}: ${r.hazardName}`), suspectText(r), ...(r.said === null ? [] : [`“${r.said}”`])]),
        },
        {
          title: 'How far',
          width: 110,
          of: (r) =>
            lines([
              `${countText(r.lots, 'lot')} in its scope, ${r.lotsHere} made at this site or brought to it`,
              `${countText(r.informed, 'customer')} informed, ${countText(r.calls, 'call')}`,
              strong(toReachText(r.toReach)),
              ...toldOutside(pack, r),
            ]),
        },
        { title: 'Ended', width: '*', of: (r) => endText(pack, r) },
      ],
      recalls,
      'No recall of this period reaches lots of this site.',
    ),
    ...decisionTable(pack, recalls),
  ];
}

/** When the authority was told and the public, or that nobody recorded that the authority was. */
const toldOutside = (pack: Pack, { notified, openedAt, closedAt }: InspectedRecall): string[] => [
  ...(notified.some((n) => n.to === 'authority') ? [] : ['Authority: not recorded as told']),
  ...notified.map(
    (n) =>
      `${onPaper('notifiedTo', n.to)} ${timeOf(pack, n.at)}${n.at < openedAt ? ' (before the case was opened)' : ''}${closedAt !== null && n.at >= closedAt ? ' (after the case was closed)' : ''}, ${onPaper('notifiedHow', n.how)}${n.reference === null ? '' : `, reference ${n.reference}`}`,
  ),
];

const suspectText = ({ suspects }: InspectedRecall): string =>
  suspects.map((s) => `${s.name}, ${s.code ?? 'no code'}`).join('; ') || 'suspected lots of another site';

const endText = (pack: Pack, r: InspectedRecall) =>
  r.closedAt === null
    ? strong('OPEN')
    : lines([
        `closed ${timeOf(pack, r.closedAt)}, ${r.closedBy ?? 'name withheld'}`,
        ...(r.whyOnHold === null ? [] : [`stays on hold: “${r.whyOnHold}”`]),
        ...closedOverTexts(r.closedOver),
      ]);

function decisionTable(pack: Pack, recalls: readonly InspectedRecall[]): Content[] {
  const decisions = recalls.flatMap((r) => r.decisions.map((d) => ({ ...d, why: r.hazardName })));
  if (decisions.length === 0) return [];
  return [
    table<Decision & { readonly why: string }>(
      [
        { title: 'When', width: 84, of: (d) => timeOf(pack, d.at) },
        { title: 'Decided in a recall about', width: 150, of: (d) => lines([strong(d.name), d.code ?? 'no code']) },
        { title: 'Decision', width: 110, of: (d) => onPaper('recallLotDecision', d.decision) },
        { title: 'Amount', width: 70, of: (d) => (d.pieces === null && d.mg === null ? 'all of it' : amountOf(d.pieces, d.mg)) },
        { title: 'By, and in which', width: '*', of: (d) => `${d.by ?? 'name withheld'}, ${d.why}` },
      ],
      decisions,
      '',
    ),
  ];
}
