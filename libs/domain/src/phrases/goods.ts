import { say } from './say.js';

/** Lots and where they come from and go to; the night's steps; recall. */
export const goods = {
  lot: {
    received: say('came in', 'Received lot'), made: say('made here', 'Lot made here'), 'old-dough': say('old dough', 'Old dough kept'), run: say('product run'),
    batch: say('batch'), vessel: say('what is in the bin', 'Content of a vessel'), placeholder: say('code still to come', 'Lot without a known code'),
  },
  codeState: {
    'on-it': say('on it', 'Code as marked'), 'none-on-it': say('none on it', 'No code marked'), 'not-known-yet': say('to come', 'Code not known yet'),
    own: say('ours', 'Own lot code'),
  },
  decision: {
    accepted: say('fine to use', 'Accepted'), refused: say('refused', 'Rejected'), 'with-a-condition': say('only if…', 'Accepted with a condition'),
  },
  trouble: {
    'held-lot-used': say('it was kept back', 'Held lot'), 'refused-lot-used': say('it was refused', 'Rejected lot'),
    'expired-lot-used': say('it was out of date', 'Past its use-by date'), 'not-released': say('it was not released', 'Not released'),
  },
  flow: {
    ingredient: say('went in', 'Ingredient'), 'late-addition': say('went in later', 'Late addition'), rework: say('put back in', 'Rework'),
    aid: say('tin oil, dusting and the like', 'Processing aid'), vessel: say('was in the bin before', 'Carried over in the vessel'),
    divided: say('was divided into', 'Divided'), batched: say('became the batch', 'Formed into a batch'),
    'after-oven': say('put on after the oven', 'Added after the last heat step'),
  },
  stage: {
    rest: say('rest', 'Resting'), fold: say('fold', 'Folding'), prove: say('prove', 'Proving'), retard: say('retard', 'Retarding'),
    cool: say('cool', 'Cooling'), freeze: say('freeze', 'Freezing'), cook: say('cook', 'Cooking'),
  },
  way: { in: say('in'), out: say('out'), once: say('done') },
  loadStep: {
    turned: say('turned'), out: say('out', 'Out of the oven'), 'back-in': say('back in the oven', 'Returned to the oven'),
    'out-again': say('out again', 'Out of the oven again'),
  },
  friction: {
    'fast-minutes': say('minutes on fast', 'Mixing time, second speed'), 'slow-minutes': say('minutes on slow', 'Mixing time, first speed'),
    'size-percent': say('size of the make', 'Size of the make, percent of planned'),
  },
  channel: {
    dispatch: say('by van to a customer', 'Dispatched'), round: say('on the round', 'Delivery round'), counter: say('over the counter', 'Sold at the counter'),
    stall: say('on the stall', 'Sold at a stall'), 'own-shop': say('to our other shop', 'Transferred to own shop'), donation: say('given away', 'Donated'),
    'eaten-in': say('eaten in', 'Consumed on the premises'), staff: say('eaten by us', 'Consumed by staff'),
    feed: say('animal feed', 'Diverted to animal feed'), sample: say('sample', 'Taken as a sample'), waste: say('thrown away', 'Disposed of as waste'),
    'supplier-return': say('back to the supplier', 'Returned to supplier'),
  },
  cameBack: {
    'on-hand': say('back on the shelf', 'Returned to stock'), waste: say('thrown away', 'Disposed of as waste'), rework: say('put back in', 'Used as rework'),
    feed: say('animal feed', 'Diverted to animal feed'), donation: say('given away', 'Donated'),
  },
  counter: { on: say('on the counter', 'Placed on display'), off: say('off the counter', 'Taken off display') },
  hazard: {
    body: say('glass, metal or the like', 'Foreign body'), organism: say('a germ', 'Microbiological hazard'),
    allergen: say('an allergen', 'Undeclared or unintended allergen'),
    'even-chemical': say('a chemical, spread evenly', 'Chemical hazard, evenly distributed, with a stated action level'),
  },
  callAnswer: {
    told: say('told them', 'Informed'), 'not-reached': say('no answer', 'Not reached'),
    'message-left': say('left a message', 'Message left; to be called again'),
  },
} as const;
