import type { InspectedChecks } from '@bakehouse/contracts';
import { grouped } from '@bakehouse/kernel';
import type { PeriodRecords } from './period-records.js';

/** Thermometer checks, cleaning, readings not taken, and holds. */
export function checksOf(records: PeriodRecords, onHold: InspectedChecks['onHold']): InspectedChecks {
  const { rows } = records;
  const lifted = grouped(rows.holdLifted, (row) => row.hold);
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
    notTaken: rows.readingNotTaken.map((x) => ({
      id: x.id,
      ...records.provenance(x),
      subjectType: x.subjectType,
      subjectName: records.subjectName(x.subjectType, x.subject),
      point: records.named(x.point) ?? x.pointKey,
      answer: x.answer,
    })),
    onHold,
    held: rows.hold.map((h) => {
      const free = lifted.get(h.id)?.at(-1);
      const fact = free && records.fact(free.entry);
      return {
        id: h.id,
        ...records.provenance(h),
        lot: h.lot,
        lotName: records.named(h.lot),
        because: h.because,
        lifted: free ? { at: free.at, by: records.person(fact?.signedBy ?? fact?.person) } : null,
      };
    }),
  };
}
