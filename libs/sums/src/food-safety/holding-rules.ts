import type { Forbidden } from './holding-periods.js';

export interface Defence {
  /** The one period must be shorter than this; the moment itself is too long. */
  readonly lessThanMinutes: number;
  readonly conditions: readonly string[];
}
export interface HoldingRule {
  readonly source: string;
  readonly limit: string;
  readonly outside: Forbidden;
  readonly defence: Defence | null;
}

const england = 'Food Safety and Hygiene (England) Regulations 2013, SI 2013/2996, Schedule 4';

/** Rules that hold at every moment. The limit itself is inside: 8.0 passes, 8.1 does not. */
export const temperatureRules = {
  'cold-us': { source: 'FDA Food Code 3-501.16(A)(2)', limit: 'at 5 °C or below', outside: { above: 5, below: Infinity }, defence: null },
  'hot-us': { source: 'FDA Food Code 3-501.16(A)(1)', limit: 'at 57 °C or above', outside: { above: -Infinity, below: 57 }, defence: null },
  'cold-england': {
    source: england,
    limit: 'at 8 °C or below',
    outside: { above: 8, below: Infinity },
    defence: {
      lessThanMinutes: 240,
      conditions: [
        'You prove it: it is a defence in proceedings, not a permission.',
        'The food was for service or on display for sale; stores, vans and chillers do not have this defence.',
        'It had not been kept for service or on display above 8 °C before: once only.',
        'It was kept so for less than four hours; four hours exactly is too long.',
      ],
    },
  },
  'hot-england': {
    source: england,
    limit: 'at 63 °C or above',
    outside: { above: -Infinity, below: 63 },
    defence: {
      lessThanMinutes: 120,
      conditions: [
        'You prove it: it is a defence in proceedings, not a permission.',
        'The food was cooked or reheated, and was for service or on display for sale; food in store does not have this defence.',
        'You had not kept it for service or on display before: once only.',
        'It was kept so for less than two hours; two hours exactly is too long.',
      ],
    },
  },
} as const satisfies Record<string, HoldingRule>;

export interface TimeRule {
  readonly source: string;
  readonly discardAtMinutes: number;
  readonly start: { readonly coldAtMost: number; readonly hotAtLeast: number | null };
  readonly neverAbove: number | null;
  readonly outside: Forbidden;
}

/** Time in place of temperature, from the moment the food leaves temperature control. Ends included. */
export const timeRules = {
  'four-hour': {
    source: 'FDA Food Code 3-501.19(B)',
    discardAtMinutes: 240,
    start: { coldAtMost: 5, hotAtLeast: 57 },
    neverAbove: null,
    outside: { above: 5, below: 57 },
  },
  'six-hour': {
    source: 'FDA Food Code 3-501.19(C)',
    discardAtMinutes: 360,
    start: { coldAtMost: 5, hotAtLeast: null },
    neverAbove: 21,
    outside: { above: 5, below: Infinity },
  },
} as const satisfies Record<string, TimeRule>;
