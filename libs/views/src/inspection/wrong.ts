import type { ConcernView, InspectedDeviation, InspectedReading } from '@bakehouse/contracts';
import { grouped } from '@bakehouse/kernel';
import { concernIdsOf, withoutOpening, type TakenBack } from '@bakehouse/records';
import type { PeriodRecords } from './period-records.js';
import type { DeviationRows } from './rows.js';

/** Deviations with whether any food in the house is on hold for them, corrective actions, disposition and closing; a deviation that a person closed for themselves is marked. */
export function deviationsOf(
  records: PeriodRecords<DeviationRows>,
  inHouse: readonly ConcernView[],
  takenBack: readonly TakenBack[],
): InspectedDeviation[] {
  const back = new Map(takenBack.map(({ id, as, says }) => [id, { as, says }]));
  const { rows } = records;
  const [actions, disposition, closures] = [
    grouped(rows.correctiveAction, (row) => row.deviation),
    grouped(rows.disposition, (row) => row.deviation),
    grouped(rows.deviationClosed, (row) => row.deviation),
  ];
  const readings = grouped(rows.reading, (row) => row.entry);
  const holding = grouped(inHouse, (c) => withoutOpening(c.id));
  const holds = (id: string, of: string, subject: string): boolean => (holding.get(id) ?? []).some((c) => id === of || c.from === subject);
  return rows.deviation.map((d) => {
    const opened = (readings.get(d.entry) ?? []).find((r) => r.subject === d.subject);
    const closed = closures.get(d.id)?.at(-1);
    const fact = closed && records.fact(closed.entry);
    const reportedAtSite = records.elsewhere(d.entry);
    return {
      id: d.id,
      ...records.provenance(d),
      reportedAtSite,
      subject: d.subject,
      subjectType: d.subjectType,
      subjectName: d.subjectType === 'site' && reportedAtSite !== null ? reportedAtSite : records.subjectName(d.subjectType, d.subject),
      type: d.type,
      class: d.class,
      summary: d.summary,
      holds: d.holds,
      onHold: concernIdsOf(d).some((id) => holds(id, d.id, d.subject)),
      takenBack: back.get(d.id) ?? null,
      reading: opened?.id ?? null,
      readAgain: opened?.pointKey
        ? untilWithin(records.readingsOf(d.subject).filter((r) => r.point === opened.pointKey && r.at > opened.at))
        : [],
      actions: (actions.get(d.id) ?? []).map((a) => ({ ...records.provenance(a), type: a.type, action: a.action })),
      disposition: (disposition.get(d.id) ?? []).map((b) => ({
        ...records.provenance(b),
        of: b.subject === d.subject ? null : (records.subjectName('lot', b.subject) ?? 'one lot of it'),
        disposition: b.disposition,
        covers: b.covers,
        pieces: b.pieces,
        mg: b.mg,
        also: b.findings.map(({ code, what }) => ({ code, what })),
        signedBy: records.signedBy(b.entry),
      })),
      closed: closed
        ? {
            at: closed.at,
            recordedAt: fact?.recordedAt ?? null,
            by: records.person(closed.closedBy),
            selfReview: closed.selfReview,
            review: fact?.words['review'] ?? null,
            stayedOnHold: closed.staysOnHold.length,
            whyOnHold: fact?.words['why'] ?? null,
          }
        : null,
    };
  });
}

/** The readings up to the first one that can be trusted and is within the limit; later readings do not settle the deviation. */
function untilWithin(later: readonly InspectedReading[]): InspectedReading[] {
  const settled = later.findIndex((r) => r.verdict === 'within' && r.doubt === null);
  return later.slice(0, settled < 0 ? later.length : settled + 1);
}
