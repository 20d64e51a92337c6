import { say } from './say.js';

const cereal = (name: string) => say(name, `Cereals containing gluten: ${name}`);
const nut = (name: string) => say(name, `Nuts: ${name}`);

/** Official words after Regulation (EU) 1169/2011 Annex II (from memory of the text); botanical names left out. */
export const allergens = {
  wheat: cereal('wheat'),
  rye: cereal('rye'),
  barley: cereal('barley'),
  oats: cereal('oats'),
  crustaceans: say('crustaceans'),
  eggs: say('eggs'),
  fish: say('fish'),
  peanuts: say('peanuts'),
  soybeans: say('soya', 'Soybeans'),
  milk: say('milk', 'Milk (including lactose)'),
  almond: nut('almonds'),
  hazelnut: nut('hazelnuts'),
  walnut: nut('walnuts'),
  cashew: nut('cashews'),
  pecan: nut('pecan nuts'),
  'brazil-nut': nut('Brazil nuts'),
  pistachio: nut('pistachio nuts'),
  macadamia: nut('macadamia or Queensland nuts'),
  celery: say('celery'),
  mustard: say('mustard'),
  sesame: say('sesame', 'Sesame seeds'),
  sulphites: say('sulphites', 'Sulphur dioxide and sulphites (above 10 mg/kg or 10 mg/l as SO₂)'),
  lupin: say('lupin'),
  molluscs: say('molluscs'),
} as const;
