import type { InspectedPlan } from '@bakehouse/contracts';
import { caution, countText } from '@bakehouse/kernel';
import { limitText } from '@bakehouse/records';
import { loosenedText, looseningBasisText, signedWithText, validationText } from '@bakehouse/views';
import {
  breakLong,
  code,
  facts,
  heading,
  lines,
  measuredText,
  notesOf,
  onPaper,
  scanned,
  small,
  strong,
  table,
  type Content,
} from '../layout/index.js';
import { sectionHead, sectionTitles } from './sections.js';
import { timeOf, type Pack } from './pack.js';

export function planSections(pack: Pack): Content[] {
  const notes = notesOf(pack.view.plans.flatMap((p) => p.points.map(basisOf)));
  const plans = pack.view.plans.flatMap((p, i): Content[] => [
    i === 0 ? sectionHead('plan', {}, planName(p)) : heading(`${sectionTitles.plan}${planName(p)}`),
    small(
      `In force from ${timeOf(pack, p.from)}${p.until === null ? '' : ` until ${timeOf(pack, p.until)}`}, ${p.everySite ? 'at every site' : 'at this site'}; signed by ${p.signedBy ?? 'name withheld'}${p.signedAt === null ? '' : ` ${timeOf(pack, p.signedAt)}`}${p.meaning === null ? '' : `: “${p.meaning}”`}. ` +
        `Scope: ${p.scope || 'not recorded'}. Team: ${p.team || 'not recorded'}.`,
    ),
    small(
      `Past its life once opened: ${onPaper('lifeRule', p.pastLife.opened)}. Past the life of what was made here: ${onPaper('lifeRule', p.pastLife.madeHere)}. ` +
        'Past its use-by date: always held.',
    ),
    ...loosenedIn(p),
    ...warningsIn(p),
    table<InspectedPlan['points'][number]>(
      [
        { title: 'Control point', width: 110, of: (x) => lines([strong(x.name), onPaper('class', x.class)]) },
        { title: 'Step; hazard', width: 105, of: (x) => lines([onPaper('pointStep', x.step), x.hazard]) },
        { title: 'Measured', width: 90, of: (x) => measuredText(x.parameter, x.measured) },
        {
          title: 'Limit',
          width: 72,
          of: (x) => lines([strong(limitText(x.limit)), ...(x.holdSeconds === null ? [] : [`held ${x.holdSeconds} s or longer`])]),
        },
        { title: 'How often', width: 68, of: (x) => onPaper('frequency', x.frequency) },
        {
          title: 'If outside; if not monitored',
          width: 125,
          of: (x) => lines([onPaper('ifOutside', x.ifOutside), onPaper('ifNotMonitored', x.ifNotMonitored), x.correctiveAction]),
        },
        { title: 'Basis', width: '*', of: (x) => notes.inPlaceOf(basisOf(x)) },
      ],
      p.points,
      'The plan has no control points.',
    ),
  ]);
  return plans.length > 0
    ? [...plans, ...notes.below]
    : [sectionHead('plan'), { text: 'NO PLAN HAD BEEN APPROVED HERE BY THE END OF THIS PERIOD.', style: 'loud' }];
}

const basisOf = ({ basis, validated }: InspectedPlan['points'][number]): string =>
  `${basis === '' ? 'Not stated' : basis} (${validationText(validated)})`;

/** What a version lets through that the plan in force before it did not. Products and formulas are counted: the plan's table does not name them either. */
function loosenedIn({ loosened }: InspectedPlan): Content[] {
  if (loosened.length === 0) return [];
  return [
    strong('This version lets through what the plan in force before it did not:'),
    ...loosened.map((one) => lines([strong(loosenedText(one, undefined, onPaper)), looseningBasisText(one)])),
    small(caution),
  ];
}

/** Limits below what is usual, with who signed the plan all the same. */
const warningsIn = ({ warnings, signedBy }: InspectedPlan): Content[] =>
  warnings.length === 0
    ? []
    : [strong(`${signedWithText(signedBy)}:`), ...warnings.map((w) => lines([strong(w.name), w.text])), small(caution)];

const planName = (p: InspectedPlan): string => `: ${p.name}, version ${p.number}`;

/** The whole seals, and how to check them without trusting the person who printed this. */
export function sealSection(pack: Pack): Content[] {
  return [
    sectionHead('seals'),
    ...pack.view.seals.map((s) => ({
      columns: [
        {
          width: '*' as const,
          ...facts(
            [
              ['Book', `${s.name}: ${countText(s.size, 'record')}, ${s.line}`],
              ['Root', breakLong(code(s.rootHex), 40)],
              ['Signed note', breakLong(code(s.note.trimEnd()), 40)],
              ['Key for checking', breakLong(code(s.verifierKey), 40)],
            ],
            70,
          ),
        },
        { width: 'auto' as const, stack: [scanned(s.note)] },
      ],
      unbreakable: true,
    })),
    small(
      'Each square is the signed note beside it, for a telephone’s camera. Keep its text away from here: put into “What you had before” on the page that checks, it shows whether a later file still holds all that was sealed now.',
    ),
    ...(pack.view.seals[0]?.says ?? []).map(small),
    small(
      `The records themselves, byte for byte with their proofs: /api/v1/sites/${pack.view.site.id}/inspection/bundle.json?from=${pack.view.from}&until=${pack.view.until}. The page that checks them, from disk and without a network: /verify.html`,
    ),
  ];
}
