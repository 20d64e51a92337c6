import { say } from './say.js';

/** Readings, control points, deviations and release. Classes as in Codex CXC 1-1969 and ISO 22000 (from memory). */
export const control = {
  verdict: {
    within: say('fine', 'Within limit'), outside: say('out', 'Outside limit'),
    unsure: say('too close to call — probe again', 'Undecided; measurement to be repeated'),
    'not-believable': say('can’t be right — check and read again', 'Not plausible; recorded, and asked for again'),
    'no-limit': say('noted', 'Recorded; no limit applies'),
  },
  class: {
    must: say('must', 'Critical control point (CCP)'), should: say('should', 'Operational prerequisite programme (oPRP)'), note: say('note', 'Process check'),
  },
  measured: {
    air: say('air'), surface: say('surface'), 'between-packs': say('between packs', 'Between packs'), core: say('core', 'Core temperature'),
    liquid: say('liquid'), dough: say('dough', 'Dough temperature'), elapsed: say('time taken', 'Elapsed time'),
    'yes-no': say('yes or no', 'Yes or no, by observation'), mass: say('weight', 'Mass'), ph: say('acidity (pH)', 'pH'),
  },
  pointStep: {
    receive: say('goods in', 'Receipt'), store: say('storing', 'Storage'), mix: say('mixing'), rest: say('resting'), prove: say('proving'),
    retard: say('retarding'), bake: say('baking'), cook: say('cooking'), cool: say('cooling'), freeze: say('freezing'), finish: say('finishing'),
    pack: say('packing'), dispatch: say('going out', 'Dispatch'), display: say('on display', 'Display'), clean: say('cleaning'),
    instrument: say('instruments', 'Checks of measuring instruments'),
  },
  limit: {
    range: say('from–to', 'Range, both ends included'), elapsed: say('time allowed', 'Longest time allowed'), yes: say('must be yes', 'Requirement met'),
  },
  frequency: {
    'each-make': say('every make'), 'each-load': say('every load'),
    'first-load-of-day': say('first load of the day', 'First load of the day, per oven and product'), 'each-delivery': say('every delivery'),
    'each-day': say('every day'), 'twice-a-day': say('twice a day'), 'each-batch': say('every batch'),
  },
  onMissed: {
    record: say('note that it was missed', 'Recorded as missed'), 'ask-again': say('ask again', 'Asked for again'),
    hold: say('keep it back', 'Held until decided'),
  },
  onOutside: {
    note: say('note it', 'Recorded'), correct: say('put it right', 'Corrective action required'),
    hold: say('keep it back', 'Held; corrective action and disposition required'),
  },
  subject: {
    make: say('make'), load: say('load', 'Oven load'), run: say('product run'), batch: say('batch'), lot: say('lot'), delivery: say('delivery'),
    place: say('place', 'Equipment or place'), instrument: say('instrument', 'Measuring instrument'), site: say('the whole bakehouse', 'Site'),
  },
  notTaken: {
    'not-done': say('not done', 'Not done'), 'not-needed': say('not needed today', 'Not applicable on this occasion'),
    'not-known': say('not known', 'Not known whether done'),
  },
  deviation: {
    limit: say('out of its limit', 'Limit not met'), missed: say('reading missed', 'Monitoring missed'),
    'held-lot-used': say('something kept back was used', 'Held lot used'), 'refused-lot-used': say('something refused was used', 'Rejected lot used'),
    'expired-lot-used': say('something out of date was used', 'Lot used after its use-by date'),
    'found-after-release': say('found after it had left', 'Found after release'),
    'not-released': say('went out before it was released', 'Dispatched without release'),
    'dated-too-far': say('dated too far ahead', 'Durability date beyond the life laid down'),
    'went-wrong': say('something went wrong', 'Nonconformity reported'),
  },
  action: {
    'back-in-the-oven': say('back in the oven', 'Baked further'), 'cooled-again': say('cooled again', 'Cooled further'),
    'set-aside': say('set aside', 'Segregated'), adjusted: say('adjusted', 'Process adjusted'), repaired: say('repaired', 'Equipment repaired'),
    'told-somebody': say('told somebody', 'Reported to a responsible person'), other: say('something else', 'Other corrective action'),
  },
  becomes: {
    used: say('used as it is', 'Accepted for use'), 'used-after-correction': say('used, put right', 'Accepted after corrective action'),
    reworked: say('reworked'), destroyed: say('thrown away', 'Destroyed'), returned: say('sent back', 'Returned to supplier'),
    feed: say('animal feed', 'Diverted to animal feed'),
  },
  cleanDown: {
    wet: say('wet clean', 'Wet cleaning'), dry: say('dry clean', 'Dry cleaning'),
    'allergen-change': say('clean between allergens', 'Allergen changeover cleaning'),
  },
  finding: {
    'no-plan': say('no plan was in force', 'No plan in force'), held: say('kept back', 'On hold'),
    'open-deviation': say('something is still open', 'Open deviation'), missed: say('a reading was missed', 'Monitoring missed'),
    unsettled: say('a reading is not settled', 'Reading not settled'),
  },
  release: { 'by-rule': say('left by rule', 'Released by rule'), 'by-exception': say('let go by somebody', 'Released by signed exception') },
} as const;
