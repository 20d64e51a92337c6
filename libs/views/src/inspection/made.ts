import type { BatchStanding, InspectedBatch, InspectedLoad, InspectedMake } from '@bakehouse/contracts';
import { grouped, latest } from '@bakehouse/kernel';
import type { PeriodRecords } from './period-records.js';

export function makesOf(records: PeriodRecords): InspectedMake[] {
  const { rows } = records;
  const [runs, stages] = [grouped(rows.run, (row) => row.make), grouped(rows.stage, (row) => row.subject)];
  return rows.make.map((m) => ({
    id: m.id,
    ...records.provenance(m),
    name: m.formulaName,
    type: m.type,
    bakeDay: m.bakeDay,
    station: records.place(m.station),
    plan: m.plan,
    products: (runs.get(m.id) ?? []).map((r) => ({ name: r.productName, pieces: r.pieces })),
    // a stage may be of the make or of one of its runs
    stages: [m.id, ...(runs.get(m.id) ?? []).map((r) => r.id)]
      .flatMap((id) => stages.get(id) ?? [])
      .map((s) => ({ ...records.happened(s), step: s.step, way: s.way, place: records.place(s.place) })),
    readings: [m.id, ...(runs.get(m.id) ?? []).map((r) => r.id)].flatMap((id) => records.readingsOf(id)),
  }));
}

export function loadsOf(records: PeriodRecords): InspectedLoad[] {
  const { rows } = records;
  const [lines, steps] = [grouped(rows.loadLine, (row) => row.load), grouped(rows.loadStep, (row) => row.load)];
  return rows.load.map((l) => ({
    id: l.id,
    ...records.provenance(l),
    oven: records.place(l.oven),
    deck: records.place(l.deck),
    celsius: l.celsius,
    minutes: l.minutes,
    plan: l.plan,
    products: (lines.get(l.id) ?? []).map((line) => ({ name: line.productName, pieces: line.pieces })),
    steps: (steps.get(l.id) ?? []).map((s) => ({ ...records.happened(s), step: s.step, minutes: s.minutes })),
    readings: records.readingsOf(l.id),
  }));
}

export function batchesOf(records: PeriodRecords, standings: ReadonlyMap<string, BatchStanding>): InspectedBatch[] {
  const releases = grouped(records.rows.release, (row) => row.batch);
  return records.rows.batch.map((b) => {
    const { id, productName: name, code, bakedOn, bestBefore, useBy, pieces, rejects } = b;
    // The last of them: an exception that was signed after a release by rule is what lets it go.
    const last = latest(releases.get(id) ?? []);
    const fact = last && records.fact(last.entry);
    return {
      id,
      ...records.provenance(b),
      name,
      code,
      bakedOn,
      bestBefore,
      useBy,
      pieces,
      rejects,
      readings: records.readingsOf(id),
      standing: standings.get(id) ?? null,
      release: last
        ? {
            at: last.at,
            way: last.way,
            by: records.signedBy(last.entry),
            meaning: fact?.meaning ?? null,
            inSpiteOf: last.findings.map((f) => ({ code: f.code, what: f.what })),
          }
        : null,
    };
  });
}
