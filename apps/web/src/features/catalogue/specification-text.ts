import type { PayloadFor, Row, Snapshot } from '@bakehouse/records';
import type { MaterialList } from '@bakehouse/contracts';
import { formulasInUse } from '../../shared/in-force';
import { allergensOf, allergensSaid, type Allergens } from './allergen-picker';

type Material = MaterialList[number];
type Specification = Material['specifications'][number];

/** What is typed of a specification, as text. */
export interface SpecificationText {
  readonly name: string;
  readonly type: Row<'specification'>['type'];
  readonly countedIn: Row<'specification'>['countedIn'];
  readonly storage: Row<'specification'>['storage'];
  readonly density: string;
  readonly lifeDays: string;
  readonly lifeOpenedHours: string;
  readonly flour: boolean;
  readonly animalOrigin: boolean;
  readonly supplier: string;
  readonly allergens: Allergens;
}

const typed = (n: number | null | undefined, per = 1): string => (n === null || n === undefined ? '' : String(n / per));

/** The text to begin with: that of the version that is followed, or of nothing. */
export function textOf(material: Material | undefined, s: Specification | undefined): SpecificationText {
  return {
    name: s?.name ?? '',
    type: material?.type ?? 'ingredient',
    countedIn: s?.countedIn ?? 'mass',
    storage: s?.storage ?? 'ambient',
    density: typed(s?.densityMgPerMl, 1000),
    lifeDays: typed(s?.lifeDays),
    lifeOpenedHours: typed(s?.lifeOpenedHours),
    flour: s?.flour ?? false,
    animalOrigin: s?.animalOrigin ?? false,
    supplier: s?.supplier ?? '',
    allergens: allergensSaid(s?.contains ?? [], s?.mayContain ?? []),
  };
}

/** A whole number within bounds, null where nothing is typed, undefined where it is something else. */
function whole(text: string, most: number): number | null | undefined {
  if (text.trim() === '') return null;
  const n = Number(text);
  return /^\d+$/.test(text.trim()) && n > 0 && n <= most ? n : undefined;
}

function density(text: string): number | null | undefined {
  if (text.trim() === '') return null;
  if (!/^\d(\.\d{1,3})?$/.test(text.trim())) return undefined;
  const mg = Math.round(Number(text) * 1000);
  return mg >= 100 && mg <= 2_500 ? mg : undefined;
}

export type Troubles = Readonly<Partial<Record<'name' | 'density' | 'lifeDays' | 'lifeOpenedHours', string>>>;

/** What stands against the text, by field: nothing where it can be accepted. */
export function troublesOf(t: SpecificationText): Troubles {
  return {
    ...(t.name.trim() === '' && { name: 'A name is needed' }),
    ...(density(t.density) === undefined && { density: 'From 0.1 to 2.5, with at most three figures after the point' }),
    ...(whole(t.lifeDays, 3_650) === undefined && { lifeDays: 'Whole days, from 1 to 3650' }),
    ...(whole(t.lifeOpenedHours, 87_600) === undefined && { lifeOpenedHours: 'Whole hours, from 1 to 87600' }),
  };
}

export function specificationOf(material: string, t: SpecificationText): PayloadFor<'specification-accepted'> {
  return {
    material,
    name: t.name.trim(),
    type: t.type,
    countedIn: t.countedIn,
    densityMgPerMl: density(t.density) ?? null,
    storage: t.storage,
    lifeDays: whole(t.lifeDays, 3_650) ?? null,
    lifeOpenedHours: whole(t.lifeOpenedHours, 87_600) ?? null,
    contains: allergensOf(t.allergens, 'yes'),
    mayContain: allergensOf(t.allergens, 'may'),
    flour: t.flour,
    animalOrigin: t.animalOrigin,
    supplier: t.supplier === '' ? null : t.supplier,
  };
}

/** What is made with a material, through what is made here of it too: names of formulas and of the products that come of them. */
export function madeWith(snapshot: Snapshot, at: string, material: string): { readonly formulas: string[]; readonly products: string[] } {
  const inUse = formulasInUse(snapshot, at);
  const reached = new Set([material]);
  const formulas = new Set<string>();
  const products = new Set<string>();
  for (let before = -1; before !== reached.size + products.size;) {
    before = reached.size + products.size;
    for (const { name, content } of inUse) {
      const within = content.lines.some((l) => reached.has(l.material));
      if (within) reached.add(content.makes);
      if (within) formulas.add(name);
      for (const p of content.products) {
        if (!within && !p.additions.some((a) => reached.has(a.material))) continue;
        formulas.add(name);
        products.add(p.name);
        reached.add(p.product);
      }
    }
  }
  return { formulas: [...formulas].sort(), products: [...products].sort() };
}
