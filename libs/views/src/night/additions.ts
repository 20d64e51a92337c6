import type { FormulaContent, Row } from '@bakehouse/records';
import type { Lookup } from '../lookup/lookup.js';

/** Something that the formula puts on a product, of which nobody recorded that it is on it or that it is not. */
export interface AdditionAsked {
  readonly run: string;
  readonly make: string;
  readonly product: string;
  readonly material: string;
  readonly name: string;
  readonly after: FormulaContent['products'][number]['additions'][number]['after'];
}

/** How it is put into words that something was not put on a product, so that it is asked no more. */
export const notPutOn = (product: string): string => `not put on ${product}`;

/** What the formula puts on these products and nobody recorded, in the formula’s order: seeds, wash, glaze, tin oil. */
export const additionsAsked = (lookup: Lookup, runs: readonly string[]): AdditionAsked[] =>
  runs.flatMap((id) => {
    const run = lookup.state.get('run', id);
    return run ? askedOf(lookup, run) : [];
  });

function askedOf({ state }: Lookup, run: Row<'run'>): AdditionAsked[] {
  const make = state.get('make', run.make);
  const version = make && state.get('formulaVersion', make.formulaVersion);
  const planned = version?.content.products.find((p) => p.product === run.product)?.additions ?? [];
  if (planned.length === 0) return [];
  const targets = [run.id, ...state.find('batch', 'run', run.id).map((b) => b.id)];
  const on = new Set(targets.flatMap((t) => state.find('flow', 'target', t)).map((f) => state.get('lot', f.source)?.material));
  const off = new Set(
    state
      .find('oneOff', 'make', run.make)
      .filter((o) => o.instead === null && o.change === notPutOn(run.productName))
      .map((o) => o.material),
  );
  return planned
    .filter((a) => !on.has(a.material) && !off.has(a.material))
    .map(({ material, name, after }) => ({ run: run.id, make: run.make, product: run.productName, material, name, after }));
}
