import { madeHere, type PayloadFor, type Row, type Snapshot } from '@bakehouse/records';
import type { MaterialList } from '@bakehouse/contracts';
import { formulasInUse } from '../../shared/in-force';
import { allergensOf, allergensSaid, type Allergens } from './allergen-picker';

type Material = MaterialList[number];
type Specification = Material['specifications'][number];

export type Against = NonNullable<PayloadFor<'specification-accepted'>['checked']>['against'];

/** What is typed of a specification, as text. */
export interface SpecificationText {
  readonly name: string;
  readonly type: Row<'specification'>['type'];
  readonly countedIn: Row<'specification'>['countedIn'];
  /** Null until somebody says how it is kept: nothing is chosen for them. */
  readonly storage: Row<'specification'>['storage'] | null;
  readonly density: string;
  readonly lifeDays: string;
  readonly lifeOpenedHours: string;
  readonly flour: boolean;
  readonly animalOrigin: boolean;
  readonly supplier: string;
  readonly allergens: Allergens;
  /** What the allergens were checked against; null until somebody says, and then possibly that nobody has checked them. */
  readonly against: Against | 'nobody' | null;
  readonly checkedOn: string;
  /** That what was checked names no allergen at all, said on purpose. */
  readonly none: boolean;
}

const typed = (n: number | null | undefined, per = 1): string => (n === null || n === undefined ? '' : String(n / per));

/** The text to begin with: that of the version that is followed, or of nothing. */
export function textOf(material: Material | undefined, s: Specification | undefined): SpecificationText {
  return {
    name: s?.name ?? '',
    type: material?.type ?? 'ingredient',
    countedIn: s?.countedIn ?? 'mass',
    storage: s?.storage ?? null,
    density: typed(s?.densityMgPerMl, 1000),
    lifeDays: typed(s?.lifeDays),
    lifeOpenedHours: typed(s?.lifeOpenedHours),
    flour: s?.flour ?? false,
    animalOrigin: s?.animalOrigin ?? false,
    supplier: s?.supplier ?? '',
    allergens: allergensSaid(s?.contains ?? [], s?.mayContain ?? []),
    against: null,
    checkedOn: '',
    none: false,
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

export type Troubles = Readonly<
  Partial<Record<'name' | 'storage' | 'density' | 'lifeDays' | 'lifeOpenedHours' | 'against' | 'checkedOn' | 'none', string>>
>;

/** What a part of the form is given. */
export interface Part {
  readonly text: SpecificationText;
  readonly set: (change: Partial<SpecificationText>) => void;
  readonly troubles: Troubles;
}

/** What stands against the text, by field: nothing where it can be accepted. */
export function troublesOf(t: SpecificationText, today: string): Troubles {
  return {
    ...(t.name.trim() === '' && { name: 'A name is needed' }),
    ...(t.storage === null && { storage: 'Say how it is kept: how warm it may come in is judged by it' }),
    ...(density(t.density) === undefined && { density: 'From 0.1 to 2.5, with at most three figures after the point' }),
    ...(whole(t.lifeDays, 3_650) === undefined && { lifeDays: 'Whole days, from 1 to 3650' }),
    ...(whole(t.lifeOpenedHours, 87_600) === undefined && { lifeOpenedHours: 'Whole hours, from 1 to 87600' }),
    ...(!madeHere(t.type) && troublesOfCheck(t, today)),
  };
}

/** Whether nothing is marked, so that “none” has to be said by somebody. */
export const nothingMarked = (t: SpecificationText): boolean =>
  allergensOf(t.allergens, 'yes').length + allergensOf(t.allergens, 'may').length === 0;

function troublesOfCheck(t: SpecificationText, today: string): Troubles {
  if (t.against === null) return { against: 'Say what it was checked against, or that nobody has checked it' };
  if (t.against === 'nobody') return {};
  return {
    ...((t.checkedOn === '' || t.checkedOn > today) && { checkedOn: 'The day of the check, not after today' }),
    ...(nothingMarked(t) && !t.none && { none: 'Nothing is marked: say that it names no allergen, or mark what it names' }),
  };
}

/** What is accepted; undefined while nobody has said how it is kept. */
export function specificationOf(material: string, t: SpecificationText): PayloadFor<'specification-accepted'> | undefined {
  if (t.storage === null) return undefined;
  const here = madeHere(t.type);
  return {
    material,
    name: t.name.trim(),
    type: t.type,
    countedIn: t.countedIn,
    densityMgPerMl: density(t.density) ?? null,
    storage: t.storage,
    lifeDays: whole(t.lifeDays, 3_650) ?? null,
    lifeOpenedHours: whole(t.lifeOpenedHours, 87_600) ?? null,
    contains: here ? [] : allergensOf(t.allergens, 'yes'),
    mayContain: here ? [] : allergensOf(t.allergens, 'may'),
    checked: here || t.against === null || t.against === 'nobody' ? null : { against: t.against, on: t.checkedOn },
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
