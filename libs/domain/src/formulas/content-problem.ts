import { Decimal } from 'decimal.js';
import { refuse, type Refused } from '../kernel/problems.js';
import type { Need, State } from '../kernel/state.js';
import { specificationAt } from '../stock/specification-at.js';
import type { FormulaContent } from './content.js';

const isMadeFromFlour = new Set(['dough', 'pastry', 'preferment', 'starter']);

/** What has to be loaded before `contentProblem` can look at a formula's content. */
export function contentNeeds(content: FormulaContent): Need[] {
  const materials = [
    content.makes, ...content.lines.map((l) => l.material), ...content.products.flatMap((p) => [p.product, ...p.additions.map((a) => a.material)]),
  ];
  return [
    ...[...new Set(materials)].map((value): Need => ({ in: 'specification', by: 'material', value })),
    ...content.lines.flatMap((l): Need[] => (l.madeBy === null ? [] : [{ in: 'formulaVersion', by: 'formula', value: l.madeBy }])),
  ];
}

/**
 * Why content cannot be baked by, or undefined: a material nobody has specified, a line whose flour mark contradicts its specification, a
 * dough with no flour anywhere, an intermediate made by no known formula, products or steps named twice, a range the wrong way round.
 */
export function contentProblem(formula: string, sort: string, content: FormulaContent, state: State, at: string): Refused | undefined {
  return madeProblem(content, state, at) ?? linesProblem(formula, content, state, at) ?? flourProblem(sort, content)
    ?? productsProblem(content, state, at) ?? stepsProblem(content) ?? rangeProblem(content);
}

function madeProblem(content: FormulaContent, state: State, at: string): Refused | undefined {
  return specificationAt(state, content.makes, at)?.sort === 'intermediate' ? undefined
    : refuse('unknown-material', 'payload.content.makes', 'a material of the sort "intermediate", with its specification accepted');
}

function linesProblem(formula: string, content: FormulaContent, state: State, at: string): Refused | undefined {
  for (const [i, line] of content.lines.entries()) {
    const field = `payload.content.lines.${i}`;
    const specification = specificationAt(state, line.material, at);
    if (!specification) return refuse('unknown-material', `${field}.material`);
    if (specification.sort === 'packaging' || specification.sort === 'product') return refuse(
      'unacceptable-value', `${field}.material`, 'an ingredient, an aid or an intermediate',
    );
    if (specification.flour !== line.flour) return refuse('unacceptable-value', `${field}.flour`, `${specification.flour}, as its specification says`);
    if (line.madeBy !== null && !isMadeBy(formula, content, state, line.madeBy, line.material)) {
      return refuse('unknown-formula', `${field}.madeBy`, 'a formula that is baked by and makes this material');
    }
  }
  return undefined;
}

/** A starter is refreshed from itself and a dough takes old dough of its own: a formula may name itself for what it makes. */
function isMadeBy(formula: string, content: FormulaContent, state: State, madeBy: string, material: string): boolean {
  return madeBy === formula ? content.makes === material : state.find('formulaVersion', 'formula', madeBy).some((v) => v.content.makes === material);
}

function flourProblem(sort: string, content: FormulaContent): Refused | undefined {
  const some = content.lines.some((l) => l.flour || l.madeBy !== null);
  return some || !isMadeFromFlour.has(sort) ? undefined : refuse(
    'unacceptable-value', 'payload.content.lines', 'at least one line of flour, or of something made here: flour is the 100 %',
  );
}

function productsProblem(content: FormulaContent, state: State, at: string): Refused | undefined {
  for (const [i, product] of content.products.entries()) {
    const field = `payload.content.products.${i}`;
    if (specificationAt(state, product.product, at)?.sort !== 'product') return refuse(
      'unknown-material', `${field}.product`, 'a material of the sort "product", with its specification accepted',
    );
    if (content.products.findIndex((p) => p.product === product.product) < i) return refuse('unacceptable-value', `${field}.product`, 'each product once');
    const unknown = product.additions.findIndex((a) => !specificationAt(state, a.material, at));
    if (unknown >= 0) return refuse('unknown-material', `${field}.additions.${unknown}.material`);
  }
  return undefined;
}

function stepsProblem(content: FormulaContent): Refused | undefined {
  for (const [i, step] of content.steps.entries()) {
    if (content.steps.findIndex((s) => s.key === step.key) < i) return refuse('unacceptable-value', `payload.content.steps.${i}.key`, 'each key once');
    if (step.minutes !== null && step.maxMinutes !== null && step.maxMinutes < step.minutes) return refuse(
      'unacceptable-value', `payload.content.steps.${i}.maxMinutes`, `at least ${step.minutes}`,
    );
  }
  return undefined;
}

function rangeProblem(content: FormulaContent): Refused | undefined {
  const range = content.doughCelsius;
  return range && new Decimal(range.max).lt(range.min) ? refuse('unacceptable-value', 'payload.content.doughCelsius.max', `at least ${range.min}`) : undefined;
}
