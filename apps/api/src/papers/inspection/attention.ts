import type { InspectedReading, InspectionView } from '@bakehouse/contracts';
import { siteDay } from '@bakehouse/kernel';
import { countsAs, loosenedText } from '@bakehouse/views';
import { onPaper, strong, type Content } from '../layout/index.js';
import type { Section } from './sections.js';

/** Something to look at first: how many, what, the first few by name, and the section that has all of it. */
export interface Matter {
  readonly count: string;
  readonly what: string;
  readonly named: readonly string[];
  readonly section: Section;
}

type Counted = Matter & { readonly of: number };

/** What the pack's data says is on hold, open, not taken or not known; where there is none of it, it is not among them. */
export const mattersOf = (view: InspectionView): readonly Matter[] =>
  [...heldOrOpen(view), ...ofReadings(view), ...ofGoods(view)].filter((m) => m.of > 0);

const name = (of: string | null): string => of ?? 'name not known';

function heldOrOpen(view: InspectionView): Counted[] {
  const { counts: n, checks } = view;
  const recalled = view.batches.filter((b) => b.release !== null && b.standing === 'on-hold');
  // Those from before the period are counted by themselves.
  const open = view.deviations.filter((d) => d.closed === null && siteDay(d.at, view.site) >= view.from);
  const recalls = view.recalls.filter((r) => !r.practice);
  const loosened = view.plans.flatMap((plan) => plan.loosened);
  const low = view.plans.flatMap((plan) => plan.warnings.map((w) => `${w.name}, signed by ${name(plan.signedBy)}`));
  return [
    {
      of: recalls.length,
      count: String(recalls.length),
      what: 'Recalls',
      named: recalls.map((r) => `${r.hazardName}, ${r.closedAt === null ? 'OPEN' : 'closed'}`),
      section: 'recalls',
    },
    {
      of: view.plans.length === 0 ? 1 : 0,
      count: 'NO',
      what: 'Plan in force',
      named: ['no plan had been approved here by the end of this period'],
      section: 'plan',
    },
    {
      of: loosened.length,
      count: String(loosened.length),
      what: 'Limits loosened',
      named: loosened.map((one) => loosenedText(one, undefined)),
      section: 'plan',
    },
    {
      of: low.length,
      count: String(low.length),
      what: 'Limits below the usual',
      named: low,
      section: 'plan',
    },
    {
      of: checks.onHold.length,
      count: String(checks.onHold.length),
      what: 'On hold',
      named: checks.onHold.map((h) => [h.name, h.code].filter((x) => x !== null).join(' ')),
      section: 'onHold',
    },
    {
      of: recalled.length,
      count: String(recalled.length),
      what: 'Released, now on hold',
      named: recalled.map((b) => `${b.name} ${b.code}`),
      section: 'batches',
    },
    {
      of: n.stillOpen + n.openFromBefore,
      count: `${n.stillOpen} of ${n.deviations}`,
      what: 'Deviations open',
      named: [
        ...open.map((d) => `${name(d.subjectName)}: ${onPaper('deviation', d.type).toLowerCase()}`),
        ...(n.openFromBefore === 0 ? [] : [`${n.openFromBefore} from before the period`]),
      ],
      section: 'deviations',
    },
  ];
}

function ofReadings(view: InspectionView): Counted[] {
  const { counts: n, checks } = view;
  const readings = readingsOf(view);
  const those = (of: ReturnType<typeof countsAs>) => readings.filter((r) => countsAs(r.verdict, r.doubt !== null) === of);
  const doubtful = those('doubtful');
  return [
    {
      of: n.outside,
      count: `${n.outside} of ${n.readings}`,
      what: 'Readings outside',
      named: those('outside').map(nameOf),
      section: 'deviations',
    },
    {
      of: n.doubtful,
      count: `${n.doubtful} of ${n.readings}`,
      what: 'Readings undecided',
      named: doubtful.map(nameOf),
      section: doubtful[0]?.section ?? 'otherReadings',
    },
    {
      of: n.notTaken,
      count: String(n.notTaken),
      what: 'Readings not taken',
      named: checks.notTaken.map((x) => `${name(x.subjectName)}, ${x.point}`),
      section: 'notTaken',
    },
  ];
}

function ofGoods(view: InspectionView): Counted[] {
  const { counts: n, checks } = view;
  const waiting = view.batches.filter((b) => b.release === null);
  const unnamed = view.deliveries.flatMap((d) => d.lots.filter((l) => l.code === null && l.identified === null));
  const refused = view.deliveries.flatMap((d) => d.lots.filter((l) => l.decisions.at(-1)?.decision === 'refused'));
  return [
    {
      of: n.notReleased,
      count: `${n.notReleased} of ${n.batches}`,
      what: 'Batches not released',
      named: waiting.map((b) => `${b.name} ${b.code}`),
      section: 'batches',
    },
    {
      of: unnamed.length,
      count: String(unnamed.length),
      what: 'Lots not identified',
      named: unnamed.map((l) => l.name),
      section: 'goods',
    },
    {
      of: n.lotsRefused,
      count: `${n.lotsRefused} of ${n.lotsReceived}`,
      what: 'Lots refused',
      named: refused.map((l) => l.name),
      section: 'goods',
    },
    {
      of: n.probeChecksFailed,
      count: `${n.probeChecksFailed} of ${n.probeChecks}`,
      what: 'Thermometer checks failed',
      named: checks.probes.filter((p) => !p.passed).map((p) => name(p.instrument)),
      section: 'probes',
    },
  ];
}

type Read = InspectedReading & { readonly section: Section };

/** Every reading of the pack, with the section in which it is printed. */
function readingsOf({ makes, loads, batches, deliveries, otherReadings }: InspectionView): readonly Read[] {
  const within = (section: Section, of: readonly InspectedReading[]): Read[] => of.map((r) => ({ ...r, section }));
  return [
    ...within(
      'made',
      makes.flatMap((m) => m.readings),
    ),
    ...within(
      'loads',
      loads.flatMap((l) => l.readings),
    ),
    ...within(
      'batches',
      batches.flatMap((b) => b.readings),
    ),
    ...within(
      'goods',
      deliveries.flatMap((d) => d.lots.flatMap((l) => l.temperatures)),
    ),
    ...within('otherReadings', otherReadings),
  ];
}

const nameOf = (r: Read): string => `${name(r.subjectName)}, ${r.parameter}`;

const few = 2;

/** The first few by name, each once, and how many more. */
export function fewOf(names: readonly string[]): Content {
  const [each, all] = [[...new Set(names)].slice(0, few), new Set(names).size];
  return all > few ? `${each.join('; ')}; and ${all - few} more` : each.join('; ');
}

export const nothingToSay = strong('By these records nothing is on hold, open, not taken or not known.');
