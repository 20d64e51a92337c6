import type { InspectedPlan } from '@bakehouse/contracts';
import { countText, dayText } from '@bakehouse/kernel';
import { limitText } from '@bakehouse/records';
import { cautionBox, facts, heading, lines, measuredText, onPaper, small, strong, table, type Content } from '../layout/index.js';
import { timeOf, type Pack } from './pack.js';

export const periodText = ({ view: { from, until } }: Pack): string =>
  from === until ? dayText(from) : `${dayText(from)} to ${dayText(until)}`;

/** The period and its counts, including what is open, outside its limit or not released. */
export function frontSection(pack: Pack): Content[] {
  const { view, printedBy } = pack;
  const { counts: n, site } = view;
  return [
    { text: 'Records for inspection', style: 'title', color: '#000000' },
    { text: `${view.business}, ${site.name}: ${periodText(pack)}`, style: 'subtitle' },
    facts(
      [
        ['Period', `${periodText(pack)}; a day begins at ${site.dayStarts}, and times are site time, ${site.zone}`],
        ...overnight(pack),
        ['Printed', `${timeOf(pack, pack.printedAt)}${printedBy === null ? '' : ` for ${printedBy}`}`],
        ['Plan in force', view.plans.map((p) => `${p.name}, version ${p.number}`).join('; ') || 'NONE'],
        ['Deviations', `${n.deviations}, of which ${n.stillOpen} still open; ${n.openFromBefore} open from before the period`],
        [
          'Readings',
          `${n.readings}: ${n.within} within their limit, ${n.outside} outside, ${n.doubtful} undecided or not plausible, ${n.readings - n.within - n.outside - n.doubtful} without a limit; ${n.notTaken} not taken`,
        ],
        [
          'Made',
          `${countText(n.makes, 'mix', 'mixes')}, ${countText(n.loads, 'load')}, ${countText(n.batches, 'batch', 'batches')}: ${n.releasedByRule} released by rule, ${n.releasedByException} by signed exception, ${n.notReleased} not released`,
        ],
        ['Received', `${countText(n.lotsReceived, 'lot')}, ${n.lotsRefused} refused`],
        [
          'Checks',
          `${countText(n.probeChecks, 'thermometer check')}, ${n.probeChecksFailed} failed; ${countText(n.cleanDowns, 'clean-down')}`,
        ],
        ['Corrections', `${countText(n.corrections, 'record')} corrected or withdrawn, all versions below`],
        ['Sealed', view.seals.map((s) => `${s.name}: ${s.line}`).join('; ')],
      ],
      90,
    ),
    cautionBox(view.caution),
  ];
}

/** A period may end in the middle of a night. */
function overnight(pack: Pack): [string, string][] {
  const { goesOnUntil, begunBefore } = pack.view.overnight;
  const rows: [string, string][] = [];
  if (goesOnUntil !== null) rows.push(['Overnight', `What was begun in this period is here whole, until ${timeOf(pack, goesOnUntil)}`]);
  const before = begunBefore.map(({ day, makes }) => `${makes.join(', ')} on ${dayText(day)}`).join('; ');
  if (before !== '') rows.push(['Cut', `Begun before this period, and whole on that day: ${before}`]);
  return rows;
}

export function planSections(pack: Pack): Content[] {
  const plans = pack.view.plans.flatMap((p): Content[] => [
    heading(`Plan in force: ${p.name}, version ${p.number}`),
    small(
      `In force from ${timeOf(pack, p.from)}${p.until === null ? '' : ` until ${timeOf(pack, p.until)}`}, ${p.everySite ? 'at every site' : 'at this site'}; signed by ${p.signedBy ?? 'name withheld'}${p.signedAt === null ? '' : ` ${timeOf(pack, p.signedAt)}`}${p.meaning === null ? '' : `: “${p.meaning}”`}. ` +
        `Scope: ${p.scope || 'not recorded'}. Team: ${p.team || 'not recorded'}.`,
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
          title: 'If outside; if not monitored',
          width: 125,
          of: (x) => lines([onPaper('ifOutside', x.ifOutside), onPaper('ifNotMonitored', x.ifNotMonitored), x.correctiveAction]),
        },
        { title: 'Basis (validation)', width: '*', of: (x) => x.basis },
      ],
      p.points,
      'The plan has no control points.',
    ),
  ]);
  return plans.length > 0 ? plans : [heading('Plan in force'), { text: 'NO PLAN WAS IN FORCE IN THIS PERIOD.', style: 'loud' }];
}

/** The whole seals, and how to check them without trusting the person who printed this. */
export function sealSection(pack: Pack): Content[] {
  return [
    heading('The seals, and how to check them', { pageBreak: 'before' }),
    ...pack.view.seals.map((s) =>
      facts(
        [
          ['Book', `${s.name}: ${countText(s.size, 'record')}, ${s.line}`],
          ['Root', s.rootHex],
          ['Signed note', s.note.trimEnd()],
          ['Key for checking', s.verifierKey],
        ],
        90,
      ),
    ),
    ...(pack.view.seals[0]?.says ?? []).map(small),
    small(
      `The records themselves, byte for byte with their proofs: /api/v1/sites/${pack.view.site.id}/inspection/bundle.json?from=${pack.view.from}&until=${pack.view.until}. The page that checks them, from disk and without a network: /verify.html`,
    ),
  ];
}
