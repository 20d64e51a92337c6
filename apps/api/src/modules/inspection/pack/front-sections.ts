import type { InspectedPlan } from '@bakehouse/contracts';
import { dayText } from '@bakehouse/kernel';
import { limitText } from '@bakehouse/records';
import { cautionBox, facts, heading, lines, measuredText, onPaper, small, strong, table, type Content } from '../../papers/index.js';
import { timeOf, type Pack } from './pack.js';

export const periodText = ({ view: { from, until } }: Pack): string =>
  from === until ? dayText(from) : `${dayText(from)} to ${dayText(until)}`;

/** What the pack is of, and what is in it in figures: also what is open, outside or not released. */
export function frontSection(pack: Pack): Content[] {
  const { view, printedBy } = pack;
  const { counts: n, site } = view;
  return [
    { text: 'Records for inspection', style: 'title', color: '#000000' },
    { text: `${view.business}, ${site.name}: ${periodText(pack)}`, style: 'subtitle' },
    facts(
      [
        [
          'Period',
          `${periodText(pack)}; a day here begins at ${site.dayStarts}, time zone ${site.zone}. Every time has its offset from UTC.`,
        ],
        ['Printed', `${timeOf(pack, pack.printedAt)}${printedBy === null ? '' : ` for ${printedBy}`}`],
        ['Plan in force', view.plans.map((p) => `${p.name}, version ${p.number}`).join('; ') || 'NONE'],
        ['Went wrong', `${n.deviations}, of which ${n.stillOpen} still open; ${n.openFromBefore} open from before`],
        [
          'Readings',
          `${n.readings}: ${n.within} within their limit, ${n.outside} outside, ${n.doubtful} undecided or not plausible, ${n.readings - n.within - n.outside - n.doubtful} without a limit; ${n.notTaken} asked for and not taken`,
        ],
        [
          'Made',
          `${n.makes} makes, ${n.loads} loads, ${n.batches} batches: ${n.releasedByRule} released by rule, ${n.releasedByException} by signed exception, ${n.notReleased} not released`,
        ],
        ['Received', `${n.lotsReceived} lots, ${n.lotsRefused} refused`],
        ['Checks', `${n.probeChecks} thermometer checks, ${n.probeChecksFailed} failed; ${n.cleanDowns} clean-downs`],
        ['Corrections', `${n.corrections} ${n.corrections === 1 ? 'record' : 'records'} corrected or withdrawn, all versions below`],
        ['Sealed', view.seals.map((s) => `${s.name}: ${s.line}`).join('; ')],
      ],
      90,
    ),
    cautionBox(view.caution),
  ];
}

export function planSections(pack: Pack): Content[] {
  const plans = pack.view.plans.flatMap((p): Content[] => [
    heading(`Plan in force: ${p.name}, version ${p.number}`),
    small(
      `In force from ${timeOf(pack, p.from)}${p.until === null ? '' : ` until ${timeOf(pack, p.until)}`}, ${p.everySite ? 'at every site' : 'at this site'}; signed by ${p.signedBy ?? 'name withheld'}${p.signedAt === null ? '' : ` ${timeOf(pack, p.signedAt)}`}${p.meaning === null ? '' : `: “${p.meaning}”`}. ` +
        `Scope: ${p.scope || 'not written down'}. Team: ${p.team || 'not written down'}.`,
    ),
    table<InspectedPlan['points'][number]>(
      [
        { title: 'Control point', width: 115, of: (x) => lines([strong(x.name), onPaper('class', x.class)]) },
        { title: 'Step; hazard', width: 115, of: (x) => lines([onPaper('pointStep', x.step), x.hazard]) },
        { title: 'Measured', width: 95, of: (x) => measuredText(x.parameter, x.measured) },
        {
          title: 'Limit',
          width: 80,
          of: (x) => lines([strong(limitText(x.limit)), ...(x.holdSeconds === null ? [] : [`held ${x.holdSeconds} s or longer`])]),
        },
        { title: 'How often', width: 80, of: (x) => onPaper('frequency', x.frequency) },
        {
          title: 'If outside; if missed',
          width: 125,
          of: (x) => lines([onPaper('ifOutside', x.ifOutside), onPaper('ifNotMonitored', x.ifNotMonitored), x.correctiveAction]),
        },
        { title: 'Basis', width: '*', of: (x) => x.basis },
      ],
      p.points,
      'It has no points.',
    ),
  ]);
  return plans.length > 0 ? plans : [heading('Plan in force'), { text: 'NO PLAN WAS IN FORCE IN THIS PERIOD.', style: 'loud' }];
}

/** The seals whole, and how to check them: without trusting whoever printed this. */
export function sealSection(pack: Pack): Content[] {
  return [
    heading('The seals, and how to check them', { pageBreak: 'before' }),
    ...pack.view.seals.map((s) =>
      facts(
        [
          ['Book', `${s.name}: ${s.size} records, ${s.line}`],
          ['Root', s.rootHex],
          ['Signed note', s.note.trimEnd()],
          ['Key to check with', s.verifierKey],
        ],
        90,
      ),
    ),
    ...(pack.view.seals[0]?.says ?? []).map(small),
    small(
      `The records themselves, byte for byte with their proofs: /api/v1/sites/${pack.view.site.id}/inspection/bundle.json?from=${pack.view.from}&until=${pack.view.until}`,
    ),
  ];
}
