import { allergen, type Allergen } from '@bakehouse/kernel';
import type { FormulaContent } from '../rows/formula-content.js';

export interface Declared {
  readonly contains: readonly Allergen[];
  readonly mayContain: readonly Allergen[];
}
/** What is asked while a formula is looked through: the specifications in force of a material (one of each supplier), the version of a formula. */
export interface AllergenSources {
  specificationsOf(material: string): readonly Declared[];
  contentOf(formula: string): FormulaContent | undefined;
}
export interface AllergenAnswer {
  readonly contains: readonly Allergen[];
  readonly mayContain: readonly Allergen[];
  /** Names of what has no specification or no formula: with any of these the answer is "not known", never "no". */
  readonly notKnown: readonly string[];
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
  const made = content.products.find((p) => p.product === product);
  return made && answer([...gather(content.lines, sources, new Set()), ...made.additions.flatMap((a) => ofMaterial(a, sources))]);
}

type Found = Declared | { readonly notKnown: string };
type Line = { readonly material: string; readonly name: string; readonly madeBy?: string | null };

function gather(lines: readonly Line[], sources: AllergenSources, seen: Set<string>): Found[] {
  return lines.flatMap((line): Found[] => {
    if (line.madeBy === null || line.madeBy === undefined) return ofMaterial(line, sources);
    if (seen.has(line.madeBy)) return []; // looked through already, or a starter refreshed from itself: it adds nothing new
    seen.add(line.madeBy);
    const content = sources.contentOf(line.madeBy);
    if (!content) return [{ notKnown: line.name }];
    return [...sources.specificationsOf(line.material), ...gather(content.lines, sources, seen)];
  });
}

function ofMaterial(line: Line, sources: AllergenSources): Found[] {
  const specifications = sources.specificationsOf(line.material);
  return specifications.length > 0 ? [...specifications] : [{ notKnown: line.name }];
}

function answer(found: readonly Found[]): AllergenAnswer {
  const declared = found.filter((f): f is Declared => 'contains' in f);
  const contains = new Set(declared.flatMap((d) => d.contains));
  const mayContain = new Set(declared.flatMap((d) => d.mayContain));
  return {
    contains: allergen.options.filter((a) => contains.has(a)),
    mayContain: allergen.options.filter((a) => mayContain.has(a) && !contains.has(a)),
    notKnown: [...new Set(found.flatMap((f) => ('notKnown' in f ? [f.notKnown] : [])))],
  };
}
