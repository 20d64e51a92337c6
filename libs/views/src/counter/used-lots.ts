import type { UsedFlow, UsedLot } from '@bakehouse/graph';
import { materialAllergens, specificationsFor, type AllergenSources, type Declared, type Row } from '@bakehouse/records';

interface Rows {
  readonly lots: readonly Row<'lot'>[];
  readonly flows: readonly UsedFlow[];
  readonly oneOffs: readonly Row<'oneOff'>[];
  readonly specifications: readonly Row<'specification'>[];
  readonly now: string;
}

const made: ReadonlySet<Row<'lot'>['type']> = new Set(['made', 'run', 'batch', 'old-dough', 'vessel']);

/** Lots with what is said of them, and what went into what; what a one-off change says went in is there although nobody weighed it. */
export function usedLots(rows: Rows, sources: AllergenSources): { readonly lots: UsedLot[]; readonly flows: UsedFlow[] } {
  const changes = rows.oneOffs.filter((o) => !weighed(o, rows));
  return {
    lots: [
      ...rows.lots.map((lot) => ({ id: lot.id, name: lot.name, made: made.has(lot.type), declared: declaredOf(lot, rows, sources) })),
      ...changes.map((o) => changed(o, rows, sources)),
    ],
    flows: [...rows.flows, ...changes.map(({ id, make }) => ({ source: id, target: make }))],
  };
}

/** A received lot has every specification that came for it; one that nobody named may be any supplier's, or any make of what is made here. */
function declaredOf(lot: Row<'lot'>, { specifications, now }: Rows, sources: AllergenSources): readonly Declared[] {
  if (made.has(lot.type)) return specifications.filter((s) => s.id === lot.specification);
  if (sources.formulasOf(lot.material) !== undefined) return [byFormula(lot.material, lot.name, sources)];
  return specificationsFor(lot, specifications, now);
}

/** What formulas say of something that was used says nothing of absence: nobody knows which make of it that was. */
function byFormula(material: string, name: string, sources: AllergenSources): Declared {
  const { contains, mayContain } = materialAllergens(material, name, sources);
  return { contains, mayContain, checked: null };
}

/** Whether the change needs no more than the lots that were weighed in: it names what was used instead and a lot of that is there, or names only what changed in amount. */
function weighed({ make, material, instead }: Row<'oneOff'>, { lots, flows }: Rows): boolean {
  if (instead === null) return material !== null;
  const into = new Set(flows.filter((f) => f.target === make).map((f) => f.source));
  return lots.some((l) => l.material === instead && into.has(l.id));
}

/** What was used by a change: any supplier's of the material; unknown where the change is told in words alone. */
function changed({ id, instead, at }: Row<'oneOff'>, { specifications, now }: Rows, sources: AllergenSources): UsedLot {
  const name = 'a change from the formula';
  if (instead === null) return { id, name, made: false, declared: [] };
  const lot = { material: instead, specification: null, supplier: null, at };
  const declared =
    sources.formulasOf(instead) === undefined ? specificationsFor(lot, specifications, now) : [byFormula(instead, name, sources)];
  return { id, name, made: false, declared };
}
