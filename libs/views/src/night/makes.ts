import { byText, byTime, grouped, inOrder, sumOfKnown } from '@bakehouse/kernel';
import type { ConcernView } from '@bakehouse/contracts';
import { flowsInto, type DivisionSum, type Row } from '@bakehouse/records';
import { concernsOn } from './concerns.js';
import { readingsOf, type ReadingView } from './readings.js';
import { stagesOf, type StageView } from './stages.js';
import { codeOf, type LotCode, type Lookup } from '../lookup/lookup.js';

export interface LineView {
  readonly lot: string;
  readonly name: string;
  readonly code: LotCode;
  /** The codes of the others, where any of several lots went in and nobody knows which. */
  readonly orCodes: readonly LotCode[];
  readonly mg: number | null;
  readonly pieces: number | null;
  readonly how: Row<'flow'>['how'];
  readonly type: Row<'flow'>['type'];
}
export interface RunView {
  readonly id: string;
  readonly product: string;
  readonly name: string;
  readonly pieces: number;
  readonly scalingMg: number;
  /** Pieces that went into an oven so far. */
  readonly loaded: number;
  /** So many more went into an oven than were made up, by the records: some pieces are on record twice, or a number is wrong. */
  readonly moreLoaded: number;
  readonly loads: readonly string[];
  readonly batches: readonly string[];
  readonly added: readonly LineView[];
  readonly stages: readonly StageView[];
  readonly readings: readonly ReadingView[];
  /** What puts it on hold, from wherever that came. */
  readonly concerns: readonly ConcernView[];
}
export interface MakeView {
  readonly id: string;
  readonly name: string;
  readonly type: Row<'make'>['type'];
  readonly formulaVersion: string;
  readonly stationName: string | null;
  readonly at: string;
  readonly doneBy: string | null;
  readonly plannedMg: number | null;
  readonly lines: readonly LineView[];
  /** The sum of the lines; null where one has no weight. */
  readonly inMg: number | null;
  readonly mixed: Row<'mixed'> | null;
  readonly changes: readonly Pick<Row<'oneOff'>, 'change' | 'material' | 'instead' | 'at'>[];
  /** What it was divided into, over all its divisions, against what went in by all that is known now. */
  readonly divided: DivisionSum | null;
  readonly ended: Row<'makeEnded'> | null;
  readonly stages: readonly StageView[];
  readonly readings: readonly ReadingView[];
  readonly runs: readonly RunView[];
  /** What puts it on hold, from wherever that came. */
  readonly concerns: readonly ConcernView[];
}

/** The makes of a bake day in the order they were begun, with everything that hangs on them. */
export const makesOf = (lookup: Lookup, bakeDay: string): MakeView[] =>
  inOrder(lookup.state.find('make', 'bakeDay', bakeDay)).map((make) => makeView(lookup, make));

/** One make: what went in, how it was mixed, what was read, and the products that it became. */
export function makeView(lookup: Lookup, make: Row<'make'>): MakeView {
  const { state } = lookup;
  const formula = state.get('formulaVersion', make.formulaVersion)?.content.lines ?? [];
  const lines = linesInto(
    lookup,
    make.id,
    formula.map((l) => l.material),
  );
  const inMg = sumOfKnown(lines.map((l) => l.mg));
  return {
    id: make.id,
    name: make.formulaName,
    type: make.type,
    formulaVersion: make.formulaVersion,
    at: make.at,
    doneBy: make.doneBy,
    plannedMg: make.plannedMg,
    stationName: make.station === null ? null : (state.get('place', make.station)?.name ?? null),
    lines,
    inMg,
    mixed: inOrder(state.find('mixed', 'make', make.id)).at(-1) ?? null,
    changes: inOrder(state.find('oneOff', 'make', make.id)).map(({ change, material, instead, at }) => ({ change, material, instead, at })),
    divided: dividedOf(state.find('divided', 'make', make.id), inMg),
    ended: inOrder(state.find('makeEnded', 'make', make.id)).at(-1) ?? null,
    stages: stagesOf(lookup, make.id),
    readings: readingsOf(lookup, make.id),
    runs: inOrder(state.find('run', 'make', make.id)).map((run) => runView(lookup, run)),
    concerns: concernsOn(lookup, make.id),
  };
}

/** The row keeps the difference that somebody was told when they divided; a weighing that came later, or was corrected, changes it. */
function dividedOf(divisions: readonly Row<'divided'>[], linesMg: number | null): DivisionSum | null {
  if (divisions.length === 0) return null;
  const sum = (of: 'runsMg' | 'oldDoughMg' | 'scrapMg'): number => divisions.reduce((total, d) => total + d[of], 0);
  const inMg = sumOfKnown(divisions.map((d) => d.weighedMg)) ?? linesMg;
  const [runsMg, oldDoughMg, scrapMg] = [sum('runsMg'), sum('oldDoughMg'), sum('scrapMg')];
  return { inMg, runsMg, oldDoughMg, scrapMg, differenceMg: inMg === null ? null : inMg - runsMg - oldDoughMg - scrapMg };
}

function runView(lookup: Lookup, run: Row<'run'>): RunView {
  const { state } = lookup;
  const lines = inOrder(state.find('loadLine', 'run', run.id));
  const loaded = lines.reduce((sum, l) => sum + l.pieces, 0);
  return {
    id: run.id,
    product: run.product,
    name: run.productName,
    pieces: run.pieces,
    scalingMg: run.scalingMg,
    loaded,
    moreLoaded: Math.max(0, loaded - run.pieces),
    loads: [...new Set(lines.map((l) => l.load))],
    batches: inOrder(state.find('batch', 'run', run.id)).map((b) => b.id),
    added: linesInto(lookup, run.id).filter((l) => l.type === 'aid' || l.type === 'after-oven'),
    stages: stagesOf(lookup, run.id),
    readings: readingsOf(lookup, run.id),
    concerns: concernsOn(lookup, run.id),
  };
}

/** In the formula's order, what is not of it last; then by time; of two lots of one material weighed in together, the older first. */
function linesInto(lookup: Lookup, target: string, formula: readonly string[] = []): LineView[] {
  const { state } = lookup;
  const placeOf = (lot: Row<'lot'> | undefined): number => {
    const place = formula.indexOf(lot?.material ?? '');
    return place < 0 ? formula.length : place;
  };
  const amounts = grouped(inOrder(flowsInto(state, target)), (f) => f.anyOf ?? f.id);
  return [...amounts.values()]
    .flatMap(([flow, ...others]) => (flow ? [{ flow, others, lot: state.get('lot', flow.source) }] : []))
    .sort(
      (a, b) =>
        placeOf(a.lot) - placeOf(b.lot) || byText(a.flow.at, b.flow.at) || byText(a.flow.source, b.flow.source) || byTime(a.flow, b.flow),
    )
    .map(({ flow: f, others, lot }) => ({
      lot: f.source,
      name: lot?.name ?? '',
      code: codeOf(lookup, f.source),
      orCodes: others.map((o) => codeOf(lookup, o.source)),
      mg: f.mg,
      pieces: f.pieces,
      how: f.how,
      type: f.type,
    }));
}
