import type { PlanContent } from '@bakehouse/records';

/** A critical core that is read at the first load of the day. The limit is for tests; nobody validated it. */
export const firstCore: PlanContent['points'][number] = {
  key: 'first-core',
  name: 'core of the first load',
  step: 'bake',
  class: 'ccp',
  hazard: 'germs',
  formulas: [],
  products: [],
  measured: 'core',
  parameter: 'core temperature',
  limit: { type: 'range', min: '93', max: null, unit: 'degC' },
  holdSeconds: null,
  frequency: 'first-load-of-day',
  ifNotMonitored: 'hold',
  ifOutside: 'hold',
  correctiveAction: 'back in the oven',
  basis: 'for tests; nobody validated it',
  validated: null,
};

/** A plan of it alone. */
export const firstLoads: PlanContent = {
  name: 'First loads',
  scope: 'all',
  team: 'lead',
  pastLife: { opened: 'warn', madeHere: 'warn' },
  points: [firstCore],
};
