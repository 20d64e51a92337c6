import { say } from './say.js';

/** People, places, instruments, materials and formulas. */
export const house = {
  role: {
    bakes: say('bakes', 'Baker'), 'runs-it': say('runs it', 'Manager'), looks: say('looks', 'Reader'), 'food-safety-lead': say('food-safety lead'),
    administrator: say('administrator'), inspector: say('inspector'),
  },
  precision: { exact: say('at'), about: say('about', 'Approximately'), between: say('between') },
  how: {
    weighed: say('weighed'), 'by-recipe': say('by recipe', 'By formula, not weighed'), guessed: say('guessed', 'Estimated'),
    label: say('from the label', 'As stated on the label'), counted: say('counted'),
  },
  place: {
    station: say('station', 'Work station'), mixer: say('mixer'), oven: say('oven'), deck: say('deck', 'Oven deck'), prover: say('prover'),
    retarder: say('retarder'), chiller: say('chiller'), freezer: say('freezer'), fridge: say('fridge', 'Refrigerator'), store: say('store'),
    counter: say('counter'), vessel: say('bin or tub', 'Vessel'), van: say('van', 'Vehicle'),
  },
  instrument: {
    probe: say('probe', 'Probe thermometer'), scale: say('scale', 'Weighing instrument'), 'fixed-sensor': say('fixed sensor'),
    infrared: say('infrared', 'Infrared thermometer (surface)'),
  },
  probeWay: { ice: say('in ice', 'Melting ice'), boiling: say('in boiling water', 'Boiling water at local air pressure') },
  material: {
    ingredient: say('ingredient'), packaging: say('packaging'), aid: say('tin oil, dusting and the like', 'Processing aid'),
    intermediate: say('made here, used here', 'Intermediate'), product: say('product'),
  },
  countedIn: { mass: say('by weight', 'Mass'), pieces: say('by the piece', 'Pieces') },
  storage: { ambient: say('on the shelf', 'Ambient'), chilled: say('in the fridge', 'Chilled'), frozen: say('in the freezer', 'Frozen') },
  party: {
    supplier: say('supplier'), customer: say('customer'), 'own-shop': say('own shop'), donation: say('given to', 'Recipient of donations'),
    feed: say('animal feed', 'Feed business'),
  },
  formula: {
    dough: say('dough'), batter: say('batter'), pastry: say('pastry'), preferment: say('preferment'), starter: say('starter', 'Starter culture'),
    soaker: say('soaker'), filling: say('filling'), topping: say('topping'), wash: say('wash or glaze', 'Wash'),
  },
  process: {
    mix: say('mix', 'Mixing'), rest: say('rest', 'Resting'), divide: say('divide', 'Dividing'), shape: say('shape', 'Shaping'), prove: say('prove', 'Proving'),
    retard: say('retard', 'Retarding'), wash: say('wash or seed', 'Washing or seeding'), bake: say('bake', 'Baking'), cook: say('cook', 'Cooking'),
    cool: say('cool', 'Cooling'), freeze: say('freeze', 'Freezing'), fill: say('fill', 'Filling'), finish: say('finish', 'Finishing'),
    pack: say('pack', 'Packing'),
  },
  speed: { slow: say('slow', 'First speed'), fast: say('fast', 'Second speed') },
  dateSort: { 'best-before': say('best before'), 'use-by': say('use by') },
  addition: { 'before-oven': say('before the oven', 'Before the heat step'), 'after-oven': say('after the oven', 'After the last heat step') },
} as const;
