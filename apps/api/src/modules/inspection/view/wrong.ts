import type { InspectedDeviation, InspectedReading } from '@bakehouse/contracts';
import { grouped, type Scene } from './scene.js';

/** What went wrong, what was done, what became of it, and who closed it: also where somebody closed their own. */
export function deviationsOf(scene: Scene): InspectedDeviation[] {
  const { rows } = scene;
  const [actions, disposition, closures] = [
    grouped(rows.correctiveAction, 'deviation'),
    grouped(rows.disposition, 'deviation'),
    grouped(rows.deviationClosed, 'deviation'),
  ];
  const readings = grouped(rows.reading, 'entry');
  return rows.deviation.map((d) => {
    const opened = (readings.get(d.entry) ?? []).find((r) => r.subject === d.subject);
    const closed = closures.get(d.id)?.at(-1);
    const fact = closed && scene.fact(closed.entry);
    return {
      id: d.id,
      ...scene.told(d),
      subject: d.subject,
      subjectType: d.subjectType,
      subjectName: scene.subjectName(d.subjectType, d.subject),
      type: d.type,
      class: d.class,
      summary: d.summary,
      holds: d.holds,
      reading: opened?.id ?? null,
      readAgain: opened?.pointKey
        ? untilWithin(scene.readingsOf(d.subject).filter((r) => r.point === opened.pointKey && r.at > opened.at))
        : [],
      actions: (actions.get(d.id) ?? []).map((a) => ({ ...scene.told(a), type: a.type, action: a.action })),
      disposition: (disposition.get(d.id) ?? []).map((b) => ({ ...scene.told(b), disposition: b.disposition, pieces: b.pieces, mg: b.mg })),
      closed: closed
        ? {
            at: closed.at,
            recordedAt: fact?.recordedAt ?? null,
            by: scene.person(closed.closedBy),
            selfReview: closed.selfReview,
            review: fact?.words['review'] ?? null,
          }
        : null,
    };
  });
}

/** What was read after it until it was within the limit again; what comes later answers nothing. */
function untilWithin(later: readonly InspectedReading[]): InspectedReading[] {
  const settled = later.findIndex((r) => r.verdict === 'within');
  return later.slice(0, settled < 0 ? later.length : settled + 1);
}
