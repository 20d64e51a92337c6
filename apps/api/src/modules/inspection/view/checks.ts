import type { InspectedChecks } from '@bakehouse/contracts';
import { grouped, type Scene } from './scene.js';

/** Thermometers checked, places cleaned down, points that were answered without a value, and what was held and freed. */
export function checksOf(scene: Scene): InspectedChecks {
  const { rows } = scene;
  const freed = grouped(rows.freed, 'hold');
  return {
    probes: rows.probeCheck.map((p) => ({
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
      sort: c.sort,
      chemical: c.chemical,
      dilution: c.dilution,
      contactMinutes: c.contactMinutes,
    })),
    notTaken: rows.notDone.map((x) => ({
      id: x.id,
      ...scene.told(x),
      subjectSort: x.subjectSort,
      subjectName: scene.subjectName(x.subjectSort, x.subject),
      point: scene.named(x.point) ?? x.pointKey,
      answer: x.answer,
    })),
    held: rows.hold.map((h) => {
      const free = freed.get(h.id)?.at(-1);
      const fact = free && scene.fact(free.entry);
      return {
        id: h.id,
        ...scene.told(h),
        lot: h.lot,
        lotName: scene.named(h.lot),
        because: h.because,
        freed: free ? { at: free.at, by: scene.person(fact?.signedBy ?? fact?.person) } : null,
      };
    }),
  };
}
