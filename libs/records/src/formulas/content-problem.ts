import { refuse, type Refused } from '@bakehouse/kernel';
import { Decimal } from 'decimal.js';
import type { Need, State } from '../base/state.js';
import { madeHere } from '../rows/catalogue.js';
import type { FormulaContent } from '../rows/formula-content.js';
import { specificationAt } from '../control/specification-at.js';

const isMadeFromFlour = new Set(['dough', 'pastry', 'preferment', 'starter']);

/** What has to be loaded before `contentProblem` can look at a formula's content. */
export function contentNeeds(content: FormulaContent): Need[] {
  const materials = [
    content.makes,
    ...content.lines.map((l) => l.material),
    ...content.products.flatMap((p) => [p.product, ...p.additions.map((a) => a.material)]),
    ...(content.rework?.sources ?? []).map((s) => s.material),
  ];
  return [
    ...[...new Set(materials)].map((value): Need => ({ in: 'specification', by: 'material', value })),
    ...content.lines.flatMap((l): Need[] => (l.madeBy === null ? [] : [{ in: 'formulaVersion', by: 'formula', value: l.madeBy }])),
  ];
}

/** The first of `contentProblems`, or undefined. */
export function contentProblem(formula: string, type: string, content: FormulaContent, state: State, at: string): Refused | undefined {
  return contentProblems(formula, type, content, state, at)[0];
}

/**
 * Every reason why content cannot be approved: a material nobody has specified, a line whose flour mark contradicts its specification, a
 * dough with no flour anywhere, an intermediate made by no known formula, products or steps named twice, a range the wrong way round, rework of what is not made here
 * or as a share of flour that is not there.
 */
export function contentProblems(formula: string, type: string, content: FormulaContent, state: State, at: string): Refused[] {
  return [
    ...some(madeProblem(content, state, at)),
    ...content.lines.flatMap((line, i) => some(lineProblem(formula, content, line, `payload.content.lines.${i}`, state, at))),
    ...some(flourProblem(type, content)),
    ...content.products.flatMap((_, i) => productProblems(content, i, state, at)),
    ...content.steps.flatMap((_, i) => stepProblems(content, i)),
    ...some(rangeProblem(content)),
    ...reworkProblems(content, state, at),
  ];
}

const some = (problem: Refused | undefined): Refused[] => (problem ? [problem] : []);

function madeProblem(content: FormulaContent, state: State, at: string): Refused | undefined {
  return specificationAt(state, content.makes, at)?.type === 'intermediate'
    ? undefined
    : refuse('unknown-material', 'payload.content.makes', 'a material of the type "intermediate", with its specification accepted');
}

type Line = FormulaContent['lines'][number];

function lineProblem(formula: string, content: FormulaContent, line: Line, field: string, state: State, at: string): Refused | undefined {
  const specification = specificationAt(state, line.material, at);
  if (!specification) return refuse('unknown-material', `${field}.material`);
  if (specification.type === 'packaging' || specification.type === 'product')
    return refuse('unacceptable-value', `${field}.material`, 'an ingredient, an aid or an intermediate');
  if (specification.flour !== line.flour)
    return refuse('unacceptable-value', `${field}.flour`, `${specification.flour}, as its specification says`);
  if (line.madeBy !== null && !isMadeBy(formula, content, state, line.madeBy, line.material)) {
    return refuse('unknown-formula', `${field}.madeBy`, 'a formula in force that makes this material');
  }
  return undefined;
}

/** A starter is refreshed from itself and a dough takes old dough of its own: a formula may name itself for what it makes. */
function isMadeBy(formula: string, content: FormulaContent, state: State, madeBy: string, material: string): boolean {
  return madeBy === formula
    ? content.makes === material
    : state.find('formulaVersion', 'formula', madeBy).some((v) => v.content.makes === material);
}

function flourProblem(type: string, content: FormulaContent): Refused | undefined {
  const hasFlour = content.lines.some((l) => l.flour || l.madeBy !== null);
  return hasFlour || !isMadeFromFlour.has(type)
    ? undefined
    : refuse(
        'unacceptable-value',
        'payload.content.lines',
        'at least one line of flour, or of a material made here: the flour is the 100 %',
      );
}

function productProblems(content: FormulaContent, i: number, state: State, at: string): Refused[] {
  const field = `payload.content.products.${i}`;
  const product = content.products[i];
  if (!product) return [];
  const found: Refused[] = [];
  if (specificationAt(state, product.product, at)?.type !== 'product') {
    found.push(refuse('unknown-material', `${field}.product`, 'a material of the type "product", with its specification accepted'));
  } else if (content.products.findIndex((p) => p.product === product.product) < i)
    found.push(refuse('unacceptable-value', `${field}.product`, 'each product once'));
  const unknown = product.additions.flatMap((a, n) =>
    specificationAt(state, a.material, at) ? [] : [refuse('unknown-material', `${field}.additions.${n}.material`)],
  );
  return [...found, ...unknown];
}

function stepProblems(content: FormulaContent, i: number): Refused[] {
  const step = content.steps[i];
  if (!step) return [];
  const twice = content.steps.findIndex((s) => s.key === step.key) < i;
  const shorter = step.minutes !== null && step.maxMinutes !== null && step.maxMinutes < step.minutes;
  return [
    ...(twice ? [refuse('unacceptable-value', `payload.content.steps.${i}.key`, 'each key once')] : []),
    ...(shorter ? [refuse('unacceptable-value', `payload.content.steps.${i}.maxMinutes`, `at least ${step.minutes}`)] : []),
  ];
}

function rangeProblem(content: FormulaContent): Refused | undefined {
  const range = content.doughCelsius;
  return range && new Decimal(range.max).lt(range.min)
    ? refuse('unacceptable-value', 'payload.content.doughCelsius.max', `at least ${range.min}`)
    : undefined;
}

function reworkProblems({ lines, rework }: FormulaContent, state: State, at: string): Refused[] {
  if (rework === null) return [];
  const sources = rework.sources.flatMap(({ material }, i) => {
    const field = `payload.content.rework.sources.${i}.material`;
    const specification = specificationAt(state, material, at);
    if (!specification) return [refuse('unknown-material', field)];
    if (!madeHere(specification.type))
      return [refuse('unacceptable-value', field, 'a product or an intermediate: only what was made here')];
    return rework.sources.findIndex((s) => s.material === material) < i ? [refuse('unacceptable-value', field, 'each material once')] : [];
  });
  if (rework.maxFlourBp === null || lines.some((l) => l.flour)) return sources;
  const share = refuse('unacceptable-value', 'payload.content.rework.maxFlourBp', 'nothing: no line of this formula is flour');
  return [...sources, share];
}
