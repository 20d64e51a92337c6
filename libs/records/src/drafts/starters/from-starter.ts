import { sameName } from '../../base/same-name.js';
import { madeHere, type MaterialType } from '../../rows/catalogue.js';
import type { StarterFormula, StarterMaterial } from './starter.js';

/** A material of the house, as far as a starter has to know it. */
export interface KnownMaterial {
  readonly material: string;
  readonly name: string;
  readonly type: MaterialType;
}

/** The house's material that a starter means: one of that name, or of another name that bakers give it. */
export function matched(of: StarterMaterial, known: readonly KnownMaterial[]): KnownMaterial | undefined {
  const fitting = known.filter((k) => (madeHere(of.type) ? k.type === of.type : !madeHere(k.type) && k.type !== 'packaging'));
  for (const called of [of.name, ...of.also]) {
    const found = fitting.find((k) => sameName(k.name, called));
    if (found) return found;
  }
  return undefined;
}

/** Everything that a starter is made of and makes. */
export const materialsOfStarter = ({ lines, makes, product }: StarterFormula): StarterMaterial[] => [
  ...lines.map((l) => l.of),
  makes,
  product,
];

/** What a house does not have of what a starter names. */
export const missingFor = (starter: StarterFormula, known: readonly KnownMaterial[]): StarterMaterial[] =>
  materialsOfStarter(starter).filter((of) => !matched(of, known));

/** The weight of a line. */
export const weightOf = ({ flourMg }: StarterFormula, share: number): number => Math.round((flourMg * share) / 10_000);

/** The text of a draft from a starter. What the house does not have stands as a line without a material; the days that it keeps nobody has said. */
export function formulaFromStarter(starter: StarterFormula, known: readonly KnownMaterial[]) {
  const { makes, product, scalingMg, bakedMg, doughCelsius, minutesSlow, minutesFast } = starter;
  return {
    name: starter.name,
    type: 'dough',
    content: {
      lines: starter.lines.map(({ of, share }) => {
        const found = matched(of, known);
        return {
          material: found?.material ?? null,
          name: found?.name ?? of.name,
          mg: weightOf(starter, share),
          flour: of.flour,
          madeBy: null,
        };
      }),
      steps: starter.steps.map((step) => ({ key: step.type, ...step, maxMinutes: null, speed: null, target: null, place: null })),
      products: [
        {
          product: matched(product, known)?.material ?? null,
          name: matched(product, known)?.name ?? product.name,
          scalingMg,
          pieces: starter.pieces,
          bakedMg,
          lossPpm: Math.round((1 - bakedMg / scalingMg) * 1_000_000),
          lifeDays: null,
          dateType: 'best-before',
          ovens: [],
          additions: [],
        },
      ],
      makes: matched(makes, known)?.material ?? null,
      doughCelsius,
      frictionCelsius: null,
      minutesSlow,
      minutesFast,
      lifeHours: null,
      rework: null,
    },
  };
}
