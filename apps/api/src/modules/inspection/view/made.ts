import type { InspectedBatch, InspectedLoad, InspectedMake } from '@bakehouse/contracts';
import { grouped, type Scene } from './scene.js';

export function makesOf(scene: Scene): InspectedMake[] {
  const { rows } = scene;
  const [runs, stages] = [grouped(rows.run, 'make'), grouped(rows.stage, 'subject')];
  return rows.make.map((m) => ({
    id: m.id,
    ...scene.told(m),
    name: m.formulaName,
    type: m.type,
    bakeDay: m.bakeDay,
    station: scene.place(m.station),
    plan: m.plan,
    products: (runs.get(m.id) ?? []).map((r) => ({ name: r.productName, pieces: r.pieces })),
    // a stage may be of the make or of one of its runs
    stages: [m.id, ...(runs.get(m.id) ?? []).map((r) => r.id)]
      .flatMap((id) => stages.get(id) ?? [])
      .map((s) => ({ at: s.at, step: s.step, way: s.way, place: scene.place(s.place) })),
    readings: [m.id, ...(runs.get(m.id) ?? []).map((r) => r.id)].flatMap((id) => scene.readingsOf(id)),
  }));
}

export function loadsOf(scene: Scene): InspectedLoad[] {
  const { rows } = scene;
  const [lines, steps] = [grouped(rows.loadLine, 'load'), grouped(rows.loadStep, 'load')];
  return rows.load.map((l) => ({
    id: l.id,
    ...scene.told(l),
    oven: scene.place(l.oven),
    deck: scene.place(l.deck),
    celsius: l.celsius,
    minutes: l.minutes,
    plan: l.plan,
    products: (lines.get(l.id) ?? []).map((line) => ({ name: line.productName, pieces: line.pieces })),
    steps: (steps.get(l.id) ?? []).map((s) => ({ at: s.at, step: s.step, minutes: s.minutes })),
    readings: scene.readingsOf(l.id),
  }));
}

export function batchesOf(scene: Scene): InspectedBatch[] {
  const releases = grouped(scene.rows.release, 'batch');
  return scene.rows.batch.map((b) => {
    const { id, productName: name, code, bakedOn, bestBefore, useBy, pieces, rejects } = b;
    const [first] = releases.get(id) ?? [];
    const fact = first && scene.fact(first.entry);
    return {
      id,
      ...scene.told(b),
      name,
      code,
      bakedOn,
      bestBefore,
      useBy,
      pieces,
      rejects,
      readings: scene.readingsOf(id),
      release: first
        ? {
            at: first.at,
            way: first.way,
            by: scene.person(fact?.signedBy ?? fact?.person),
            meaning: fact?.meaning ?? null,
            inSpiteOf: first.findings.map((f) => ({ code: f.code, what: f.what })),
          }
        : null,
    };
  });
}
