import type { InspectedChecks } from '@bakehouse/contracts';
import { grouped, type Scene } from './scene.js';

/** Thermometers checked, places cleaned down, points that were answered without a value, and what was held and lifted. */
export function checksOf(scene: Scene): InspectedChecks {
  const { rows } = scene;
  const lifted = grouped(rows.holdLifted, 'hold');
  return {
    probes: rows.instrumentCheck.map((p) => ({
      id: p.id,
      ...scene.told(p),
      instrument: scene.instrument(p.instrument),
      way: p.way,
      shownMilli: p.milli,
      referenceMilli: p.referenceMilli,
      toleranceMilli: p.toleranceMilli,
      passed: p.passed,
    })),
    cleanDowns: rows.cleanDown.map((c) => ({
      id: c.id,
      ...scene.told(c),
      place: scene.place(c.place),
      type: c.type,
      chemical: c.chemical,
      dilution: c.dilution,
      contactMinutes: c.contactMinutes,
    })),
    notTaken: rows.readingNotTaken.map((x) => ({
      id: x.id,
      ...scene.told(x),
      subjectType: x.subjectType,
      subjectName: scene.subjectName(x.subjectType, x.subject),
      point: scene.named(x.point) ?? x.pointKey,
      answer: x.answer,
    })),
    held: rows.hold.map((h) => {
      const free = lifted.get(h.id)?.at(-1);
      const fact = free && scene.fact(free.entry);
      return {
        id: h.id,
        ...scene.told(h),
        lot: h.lot,
        lotName: scene.named(h.lot),
        because: h.because,
        lifted: free ? { at: free.at, by: scene.person(fact?.signedBy ?? fact?.person) } : null,
      };
    }),
  };
}
