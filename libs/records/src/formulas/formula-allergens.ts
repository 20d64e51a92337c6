import { allergen, type Allergen } from '@bakehouse/kernel';
import type { Row } from '../base/state.js';
import type { FormulaContent } from '../rows/formula-content.js';

/** What a specification says, and whether anybody checked it: only a checked one speaks of absence. */
export interface Declared {
  readonly contains: readonly Allergen[];
  readonly mayContain: readonly Allergen[];
  readonly checked: Pick<NonNullable<Row<'specification'>['checked']>, 'on'> | null;
}
/** What is asked while a formula is looked through. */
export interface AllergenSources {
  /** The specifications in force of a material, one of each supplier. */
  specificationsOf(material: string): readonly Declared[];
  /** The version of a formula. */
  contentOf(formula: string): FormulaContent | undefined;
  /** The formulas that a material made here comes of; undefined where it is not made here. */
  formulasOf(material: string): readonly string[] | undefined;
}
export interface AllergenAnswer {
  readonly contains: readonly Allergen[];
  readonly mayContain: readonly Allergen[];
  /** Names of what has no checked specification or no formula: with any of these the answer is "not known", never "no". */
  readonly notKnown: readonly string[];
  /** The day of the oldest check that the answer rests on: what it does not name is absent by checks since then. Null where absence cannot be said. */
  readonly checkedSince: string | null;
}

/**
 * What a formula contains and may contain, through everything that is made here for it, in the order of the law's list. Where suppliers'
 * specifications of one material differ, all of them count: this is what could be in it; what was in one batch is told by the lots used.
 */
export function formulaAllergens(content: Pick<FormulaContent, 'lines'>, sources: AllergenSources): AllergenAnswer {
  return answer(gather(content.lines, sources, new Set()));
}

/** As `formulaAllergens`, with what goes on or under that product besides: seeds, washes, glazes, tin oil. Undefined where the formula has no such product. */
export function productAllergens(content: FormulaContent, product: string, sources: AllergenSources): AllergenAnswer | undefined {
  return content.products.some((p) => p.product === product) ? answer(asProduct(content, product, sources, new Set())) : undefined;
}

/** What a material contains: what is bought by its specifications, what is made here by its formulas. */
export function materialAllergens(material: string, materialName: string, sources: AllergenSources): AllergenAnswer {
  return answer(ofMaterial({ material, name: materialName }, sources, new Set()));
}

/** Positive statements of what is made here, from before it was derived, still count; they say nothing of absence. */
type Found = Omit<Declared, 'checked'> & { readonly checkedOn: string | null; readonly notKnown: string | null };
type Line = { readonly material: string; readonly name: string; readonly madeBy?: string | null };

const unknown = (name: string): Found => ({ contains: [], mayContain: [], checkedOn: null, notKnown: name });

function gather(lines: readonly Line[], sources: AllergenSources, seen: Set<string>): Found[] {
  return lines.flatMap((line) => ofMaterial(line, sources, seen));
}

function ofMaterial({ material, name, madeBy = null }: Line, sources: AllergenSources, seen: Set<string>): Found[] {
  const specifications = sources.specificationsOf(material);
  const formulas = madeBy === null ? sources.formulasOf(material) : [madeBy];
  if (formulas) {
    const said = specifications.map(({ contains, mayContain }): Found => ({ contains, mayContain, checkedOn: null, notKnown: null }));
    return [
      ...said,
      ...(formulas.length === 0 ? [unknown(name)] : formulas.flatMap((f) => ofFormula(f, { material, name }, sources, seen))),
    ];
  }
  if (specifications.length === 0) return [unknown(name)];
  return specifications.map(({ contains, mayContain, checked }) => ({
    contains,
    mayContain,
    checkedOn: checked?.on ?? null,
    notKnown: checked ? null : name,
  }));
}

function ofFormula(formula: string, { material, name }: Line, sources: AllergenSources, seen: Set<string>): Found[] {
  const key = `${formula} ${material}`;
  if (seen.has(key)) return []; // looked through already, or a starter refreshed from itself: it adds nothing new
  seen.add(key);
  const content = sources.contentOf(formula);
  return content ? asProduct(content, material, sources, seen) : [unknown(name)];
}

function asProduct(content: FormulaContent, product: string, sources: AllergenSources, seen: Set<string>): Found[] {
  const additions = content.products.find((p) => p.product === product)?.additions ?? [];
  return gather([...content.lines, ...additions], sources, seen);
}

function answer(found: readonly Found[]): AllergenAnswer {
  const contains = new Set(found.flatMap((d) => d.contains));
  const mayContain = new Set(found.flatMap((d) => d.mayContain));
  const notKnown = [...new Set(found.flatMap((f) => f.notKnown ?? []))];
  const [oldest] = found.flatMap((f) => f.checkedOn ?? []).sort();
  return {
    contains: allergen.options.filter((a) => contains.has(a)),
    mayContain: allergen.options.filter((a) => mayContain.has(a) && !contains.has(a)),
    notKnown,
    checkedSince: notKnown.length === 0 ? (oldest ?? null) : null,
  };
}
