import { notValidated } from '../../plans/not-validated.js';
import type { PlanContent, PointContent } from '../../rows/plan-content.js';

const practice = 'common practice, no source';
/** Where a limit of the starter comes from; it is no evidence that it is right for this house. */
const from = (source: string): string => `${notValidated} (starting point: ${source})`;

const point = (of: Omit<PointContent, 'formulas' | 'products' | 'holdSeconds' | 'validated'>): PointContent => ({
  ...of,
  formulas: [],
  products: [],
  holdSeconds: null,
  validated: null,
});

/** A plan to begin a draft with. Nobody has approved it, and none of its limits is validated: the sources are those of the figures, not evidence for a house. */
export const starterPlan: { readonly key: 'bread-and-buns'; readonly says: string; readonly content: PlanContent } = {
  key: 'bread-and-buns',
  says: 'Five control points for ambient bread and buns: cold goods on arrival, the fridge, the dough, the core, and cleaning down between allergens.',
  content: {
    name: 'Bread and buns',
    scope: 'Ambient bread and buns, baked and sold here. Not for filled, chilled or frozen goods, nor for meat.',
    team: '',
    // The stricter of both: somebody who approves this has chosen otherwise, or not.
    pastLife: { opened: 'hold', madeHere: 'hold' },
    points: [
      point({
        key: 'cold-arrival',
        name: 'Chilled goods on arrival',
        step: 'receive',
        class: 'oprp',
        hazard: 'Germs grow in chilled goods that came warm',
        measured: 'between-packs',
        parameter: 'temperature between packs',
        limit: { type: 'range', min: null, max: '8', unit: 'degC' },
        frequency: 'each-delivery',
        ifNotMonitored: 'record',
        ifOutside: 'hold',
        correctiveAction: 'Hold it and decide whether it is taken.',
        basis: from('chilled food in England is kept at 8 °C or less, SI 2013/2996 Schedule 4; elsewhere other figures hold'),
      }),
      point({
        key: 'fridge',
        name: 'Air in the fridge',
        step: 'store',
        class: 'oprp',
        hazard: 'Germs grow in chilled materials',
        measured: 'air',
        parameter: 'air temperature',
        limit: { type: 'range', min: null, max: '5', unit: 'degC' },
        frequency: 'twice-a-day',
        ifNotMonitored: 'record',
        ifOutside: 'correct',
        correctiveAction: 'Read again after half an hour with the door shut; then move what is in it and decide.',
        basis: from(`5 °C is a food temperature in the FDA Food Code 3-501.16; for air it is ${practice}`),
      }),
      point({
        key: 'dough',
        name: 'Dough temperature',
        step: 'mix',
        class: 'process-check',
        hazard: 'None: quality',
        measured: 'dough',
        parameter: 'dough temperature',
        limit: { type: 'range', min: '24.5', max: '28', unit: 'degC' },
        frequency: 'each-make',
        ifNotMonitored: 'record',
        ifOutside: 'note',
        correctiveAction: 'Warmer or colder water next time.',
        basis: from(practice),
      }),
      point({
        key: 'core',
        name: 'Core of the coldest piece',
        step: 'bake',
        class: 'ccp',
        hazard: 'Vegetative germs survive the oven',
        measured: 'core',
        parameter: 'core temperature',
        limit: { type: 'range', min: '93', max: null, unit: 'degC' },
        frequency: 'each-load',
        ifNotMonitored: 'ask-again',
        ifOutside: 'hold',
        correctiveAction: 'Back in the oven, then read again.',
        basis: from(`no regulator sets one for bread; 93 °C for lean dough is ${practice}, and enriched dough is often baked to less`),
      }),
      point({
        key: 'clean-down',
        name: 'Cleaned down between allergens',
        step: 'clean',
        class: 'oprp',
        hazard: 'An allergen is carried over into another product',
        measured: 'yes-no',
        parameter: 'clean to the eye',
        limit: { type: 'yes' },
        frequency: 'each-day',
        ifNotMonitored: 'record',
        ifOutside: 'correct',
        correctiveAction: 'Clean again before the next product.',
        basis: from(practice),
      }),
    ],
  },
};
