import { allergensNewIn, openAt, productAllergens, type AllergenSources, type Declared, type Row } from '@bakehouse/records';
import type { CounterView } from '@bakehouse/contracts';
import { usedOf, type Touched, type UsedFlow, type UsedLot } from '@bakehouse/graph';
import { counterAnswers, type CounterOpening, type CounterProduct } from './counter-answers.js';

export interface CounterMaterial {
  /** What materials are and how things are made here, every version. */
  readonly specifications: readonly Row<'specification'>[];
  readonly formulas: readonly Row<'formulaVersion'>[];
  readonly now: string;
  readonly from: string;
  readonly batches: readonly Row<'batch'>[];
  readonly onCounter: ReadonlySet<string>;
  readonly lots: readonly Row<'lot'>[];
  readonly flows: readonly UsedFlow[];
  readonly touched: readonly Touched[];
  readonly opened: readonly Row<'inUse'>[];
  readonly emptied: readonly Row<'emptied'>[];
}

/** Today's products with their answers, and the openings that brought in something new. Pure. */
export function counterPart(m: CounterMaterial): Pick<CounterView, 'products' | 'opened'> {
  const sources = sourcesOf(m);
  const byId = new Map(m.specifications.map((s) => [s.id, s]));
  const used = usedOf(
    m.lots.map((lot) => usedLot(lot, byId, sources)),
    m.flows,
    m.touched,
  );
  const fresh = freshOpenings(m, byId, sources);
  const answered = counterAnswers(productsOf(m, sources), used, fresh);
  const standing = new Set(m.batches.filter((b) => m.onCounter.has(b.id)).map((b) => b.product));
  return {
    products: answered.map(({ product, name, answers, fromBowl, notOnTicket, staleSince }) => ({
      product,
      name,
      onCounter: standing.has(product),
      answers,
      fromBowl: [...fromBowl],
      notOnTicket: [...notOnTicket],
      staleSince,
    })),
    opened: fresh.map(({ at, fresh: { contains, mayContain } }) => ({ at, contains, mayContain })),
  };
}

const made: ReadonlySet<Row<'lot'>['type']> = new Set(['made', 'run', 'batch', 'old-dough', 'vessel']);

/** A lot that nobody has named may be any supplier's: all of their specifications count. */
function usedLot(lot: Row<'lot'>, byId: ReadonlyMap<string, Declared>, sources: AllergenSources): UsedLot {
  const own = lot.specification === null ? undefined : byId.get(lot.specification);
  const declared =
    lot.type === 'placeholder'
      ? sources.specificationsOf(lot.material)
      : own
        ? [own]
        : made.has(lot.type)
          ? []
          : sources.specificationsOf(lot.material);
  return { id: lot.id, name: lot.name, made: made.has(lot.type), declared };
}

interface Sources extends AllergenSources {
  contentOf(formula: string): FormulaContent | undefined;
}
type FormulaContent = Row<'formulaVersion'>['content'];

/** Specifications and formulas in force now. */
function sourcesOf({ specifications, formulas, now }: CounterMaterial): Sources {
  const inForce = new Map<string, Row<'specification'>>();
  for (const s of [...specifications].filter((one) => one.since <= now).sort((a, b) => (a.since < b.since ? -1 : 1)))
    inForce.set(`${s.material} ${s.supplier ?? ''}`, s);
  const newest = new Map<string, Row<'formulaVersion'>>();
  for (const f of [...formulas].filter((one) => one.since <= now).sort((a, b) => a.number - b.number)) newest.set(f.formula, f);
  const all = [...inForce.values()];
  return {
    specificationsOf: (material) => all.filter((s) => s.material === material),
    contentOf: (formula) => newest.get(formula)?.content,
  };
}

function productsOf({ batches }: CounterMaterial, sources: Sources): CounterProduct[] {
  const products = new Map<string, Row<'batch'>[]>();
  for (const b of batches) products.set(b.product, [...(products.get(b.product) ?? []), b]);
  return [...products]
    .flatMap(([product, its]): CounterProduct[] => {
      const last = its.at(-1);
      if (!last) return [];
      const content = sources.contentOf(last.formula);
      return [
        {
          product,
          name: last.productName,
          lots: its.map((b) => b.id),
          recipe: content ? (productAllergens(content, product, sources) ?? null) : null,
        },
      ];
    })
    .sort((a, b) => a.name.localeCompare(b.name));
}

/** Lots opened today that bring in what was not there before: what was open at that station until then, else what the material is said to be. */
function freshOpenings(
  { opened, emptied, from }: CounterMaterial,
  byId: ReadonlyMap<string, Declared>,
  sources: AllergenSources,
): CounterOpening[] {
  return opened
    .filter((o) => o.at >= from)
    .flatMap((o): CounterOpening[] => {
      const before = openAt(
        opened.filter((other) => other.id !== o.id && other.at < o.at),
        emptied,
        o.at,
      ).filter((b) => b.station === o.station && b.material === o.material);
      const declaredOf = (id: string | null): Declared[] => {
        const s = id === null ? undefined : byId.get(id);
        return s ? [s] : [];
      };
      const [own] = declaredOf(o.specification);
      const known = before.flatMap((b) => declaredOf(b.specification));
      if (!own) return [];
      const fresh = allergensNewIn(own, known.length > 0 ? known : sources.specificationsOf(o.material));
      return fresh.contains.length + fresh.mayContain.length === 0 ? [] : [{ lot: o.lot, at: o.at, fresh }];
    });
}
