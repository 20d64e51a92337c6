import type { FormulaList } from '@bakehouse/contracts';
import type { NewestVersion } from './versions.js';

/** All formulas, in force and retired. Pure. */
export const formulaListOf = (versions: readonly NewestVersion[]): FormulaList => versions.map(listed);

function listed({ formula, id, number, name, type, since, signed, content, retired }: NewestVersion): FormulaList[number] {
  const sum = (lines: typeof content.lines): number => lines.reduce((mg, l) => mg + l.mg, 0);
  return {
    formula,
    version: id,
    number,
    name,
    type,
    since,
    signed,
    makes: content.makes,
    totalMg: sum(content.lines),
    flourMg: sum(content.lines.filter((l) => l.flour)),
    products: content.products.map(({ product, name: called, scalingMg }) => ({ product, name: called, scalingMg })),
    retired,
  };
}
