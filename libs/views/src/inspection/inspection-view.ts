import { countsAs, type CountsAs } from './counts-as.js';
import type { BatchStanding, ConcernView, HeldLot, InspectionView, SealView } from '@bakehouse/contracts';
import { caution } from '@bakehouse/kernel';
import { checksOf, type LateReading, type LeftOfLot } from './checks.js';
import { correctionsOf } from './corrections.js';
import { decisionsOf, wasteOf } from './food.js';
import { deliveriesOf, otherDecisions } from './goods.js';
import { batchesOf, loadsOf, makesOf } from './made.js';
import { plansOf } from './plans.js';
import type { TakenBack } from '@bakehouse/records';
import type { PeriodRecords } from './period-records.js';
import { overnightOf } from './overnight.js';
import type { BegunBefore, Period, VersionRow } from './rows.js';
import { deviationsOf } from './wrong.js';

export interface InspectionMaterial {
  readonly business: string;
  readonly details: InspectionView['details'];
  readonly recalls: InspectionView['recalls'];
  readonly period: Period;
  readonly asOf: string;
  readonly begunBefore: readonly BegunBefore[];
  readonly openFromBefore: number;
  readonly versions: readonly VersionRow[];
  readonly truncated: boolean;
  /** The deviations whose record was withdrawn or corrected. */
  readonly takenBack: readonly TakenBack[];
  readonly onHold: readonly HeldLot[];
  /** What holds food anywhere in the house. */
  readonly holding: readonly ConcernView[];
  /** What is left of each lot that a hold of the period names. */
  readonly left: ReadonlyMap<string, LeftOfLot>;
  /** How each batch stands now. */
  readonly standings: ReadonlyMap<string, BatchStanding>;
  /** The critical readings of the period that nobody took in time. */
  readonly late: readonly LateReading[];
  readonly seals: readonly SealView[];
}

/** The page of a site and a period, from what was read. Pure. */
export function inspectionOf(
  records: PeriodRecords,
  {
    business,
    details,
    recalls,
    period,
    asOf,
    begunBefore,
    openFromBefore,
    versions,
    truncated,
    takenBack,
    onHold,
    holding,
    left,
    standings,
    late,
    seals,
  }: InspectionMaterial,
): InspectionView {
  const { id, name, zone, dayStarts } = records.site;
  const nameOf = (it: string): string | null => records.named(it) ?? records.place(it) ?? records.instrument(it);
  const view = {
    plans: plansOf(records, period),
    deviations: deviationsOf(records, holding, takenBack),
    decisions: decisionsOf(records, period),
    waste: wasteOf(records),
    makes: makesOf(records),
    loads: loadsOf(records),
    deliveries: deliveriesOf(records),
    batches: batchesOf(records, standings),
    checks: checksOf(records, { onHold: [...onHold], late, left }),
    corrections: correctionsOf(versions, nameOf, (it) => records.person(it), zone),
  };
  const shown = new Set(
    [...view.makes, ...view.loads, ...view.batches]
      .flatMap((m) => m.readings.map((r) => r.id))
      .concat(view.deliveries.flatMap((d) => d.lots.flatMap((l) => l.temperatures.map((r) => r.id)))),
  );
  return {
    business,
    details,
    recalls,
    site: { id, name, zone, dayStarts },
    from: period.from,
    until: period.until,
    asOf,
    overnight: overnightOf(records, period, begunBefore),
    ...view,
    correctionsTruncated: truncated,
    otherDecisions: otherDecisions(records),
    otherReadings: records.rows.reading.filter((r) => !shown.has(r.id)).map((r) => records.reading(r)),
    counts: countsOf(records, { ...view, deviations: openedSince(view.deviations, period.begins) }, openFromBefore),
    seals: [...seals],
    caution,
  };
}

/** Those from before were closed or decided on in the period; where they are open they are counted by themselves. */
const openedSince = (deviations: InspectionView['deviations'], begins: string): InspectionView['deviations'] =>
  deviations.filter((d) => d.at >= begins);

type Parts = Pick<InspectionView, 'deviations' | 'makes' | 'loads' | 'deliveries' | 'batches' | 'checks' | 'corrections'>;

function countsOf(
  records: PeriodRecords,
  { deviations, makes, loads, deliveries, batches, checks, corrections }: Parts,
  openFromBefore: number,
): InspectionView['counts'] {
  const { rows } = records;
  const read = rows.reading.map((r) => countsAs(r.verdict, records.doubtOn(r) !== null));
  const many = (of: CountsAs): number => read.filter((one) => one === of).length;
  const left = (way: string | null): number => batches.filter((b) => (b.release?.way ?? null) === way).length;
  const lots = deliveries.flatMap((d) => d.lots);
  return {
    makes: makes.length,
    loads: loads.length,
    readings: rows.reading.length,
    within: many('within'),
    outside: many('outside'),
    doubtful: many('doubtful'),
    notTaken: checks.notTaken.length,
    deviations: deviations.length,
    stillOpen: deviations.filter((d) => d.closed === null).length,
    openFromBefore,
    lotsReceived: lots.length,
    lotsRefused: lots.filter((l) => l.decisions.at(-1)?.decision === 'refused').length,
    batches: batches.length,
    releasedByRule: left('by-rule'),
    releasedByException: left('by-exception'),
    notReleased: left(null),
    probeChecks: checks.probes.length,
    probeChecksFailed: checks.probes.filter((p) => !p.passed).length,
    cleanDowns: checks.cleanDowns.length,
    corrections: corrections.length,
  };
}
