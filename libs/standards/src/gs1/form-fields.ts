import type { ResolvedElement } from './resolve.js';

/** What the form for goods in can take from a scan; null where the code does not say. */
export interface Gs1FormFields {
  readonly gtin: string | null;
  readonly lot: string | null;
  readonly bestBefore: string | null;
  readonly useBy: string | null;
  readonly packedOn: string | null;
  readonly productionDate: string | null;
  readonly netMassGrams: number | null;
  readonly count: number | null;
}

const gramsPerPound = 453.59237; // exact: NIST SP 811

/** Fields for goods in, from elements as `resolve` gives them. The GTIN is the item's own (01), or that of what a case holds (02). */
export function gs1FormFields(elements: readonly ResolvedElement[]): Gs1FormFields {
  const first = (...ais: string[]) =>
    ais.map((ai) => elements.find((element) => element.ai === ai)).find((element) => element !== undefined);
  const kilograms = elements.find(({ ai }) => ai.startsWith('310'));
  const pounds = elements.find(({ ai }) => ai.startsWith('320'));
  const count = first('37', '30')?.value;
  return {
    gtin: first('01', '02')?.value ?? null,
    lot: first('10')?.value ?? null,
    bestBefore: first('15')?.date ?? null,
    useBy: first('17')?.date ?? null,
    packedOn: first('13')?.date ?? null,
    productionDate: first('11')?.date ?? null,
    netMassGrams: grams(kilograms, 1000) ?? grams(pounds, gramsPerPound),
    count: count === undefined ? null : Number(count),
  };
}

/** To a hundredth of a gram, the finest that six figures of kilograms can say. */
function grams(element: ResolvedElement | undefined, perUnit: number): number | null {
  const decimal = element?.decimal ?? null;
  return decimal === null ? null : Math.round(Number(decimal) * perUnit * 100) / 100;
}
