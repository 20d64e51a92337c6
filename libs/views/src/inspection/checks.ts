import type { InspectedChecks } from '@bakehouse/contracts';
import { derivedId, grouped } from '@bakehouse/kernel';
import type { Row } from '@bakehouse/records';
import type { PeriodRecords } from './period-records.js';
import type { RecordedRow } from './rows.js';

/** A critical reading that the plan asked for and nobody took in time, as the follower of what is due finds it. */
export interface LateReading {
  readonly subjectType: Row<'reading'>['subjectType'];
  readonly subject: string;
  readonly subjectName: string | null;
  readonly key: string;
  readonly name: string;
  readonly lateAt: string;
}

export type LeftOfLot = NonNullable<InspectedChecks['held'][number]['left']>;

interface AsOfNow {
  readonly onHold: InspectedChecks['onHold'];
  readonly late: readonly LateReading[];
  /** What is left of the lots that holds name. */
  readonly left: ReadonlyMap<string, LeftOfLot>;
}

/** Thermometer checks, cleaning, readings not taken, and holds. */
export function checksOf(records: PeriodRecords, { onHold, late, left }: AsOfNow): InspectedChecks {
  const { rows } = records;
  const lifted = grouped(rows.holdLifted, (row) => row.hold);
  const ended = grouped(rows.placeHoldEnded, (row) => row.hold);
  const decided = (row: RecordedRow<'holdLifted' | 'placeHoldEnded'> | undefined) => {
    return row ? { at: row.at, by: records.signedBy(row.entry), why: records.fact(row.entry)?.words['why'] ?? null } : null;
  };
  return {
    probes: rows.instrumentCheck.map((p) => ({
      id: p.id,
      ...records.provenance(p),
      instrument: records.instrument(p.instrument),
      way: p.way,
      shownMilli: p.milli,
      referenceMilli: p.referenceMilli,
      toleranceMilli: p.toleranceMilli,
      passed: p.passed,
    })),
    cleanDowns: rows.cleanDown.map((c) => ({
      id: c.id,
      ...records.provenance(c),
      place: c.name ?? records.place(c.place),
      type: c.type,
      chemical: c.chemical,
      dilution: c.dilution,
      contactSeconds: c.contactSeconds,
    })),
    notTaken: [
      ...rows.readingNotTaken.map((x) => ({
        id: x.id,
        ...records.provenance(x),
        subjectType: x.subjectType,
        subjectName: records.subjectName(x.subjectType, x.subject),
        point: records.named(x.point) ?? x.pointKey,
        answer: x.answer,
      })),
      ...late.map((d) => lateRow(records, d)),
    ],
    onHold,
    held: rows.hold.map((h) => ({
      id: h.id,
      ...records.provenance(h),
      lot: h.lot,
      lotName: records.named(h.lot),
      because: h.because,
      left: left.get(h.lot) ?? null,
      lifted: decided(lifted.get(h.id)?.at(-1)),
    })),
    heldPlaces: rows.placeHold.map((h) => ({
      id: h.id,
      ...records.provenance(h),
      place: h.placeName,
      from: h.begins,
      to: h.ends,
      because: h.because,
      ended: decided(ended.get(h.id)?.at(-1)),
    })),
  };
}

/** A critical reading that nobody took in time, and nobody said why: as of when its time was over. */
const lateRow = (records: PeriodRecords, d: LateReading): InspectedChecks['notTaken'][number] => ({
  id: derivedId(d.subject, d.key),
  at: d.lateAt,
  precision: null,
  until: null,
  recordedAt: null,
  doneBy: null,
  recordedBy: null,
  note: null,
  subjectType: d.subjectType,
  subjectName: records.subjectName(d.subjectType, d.subject) ?? d.subjectName,
  point: d.name,
  answer: 'late',
});
