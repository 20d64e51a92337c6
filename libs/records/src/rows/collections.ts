import * as baking from './baking.js';
import * as catalogue from './catalogue.js';
import * as control from './control.js';
import * as formulas from './formulas.js';
import * as inspection from './inspection.js';
import * as makes from './makes.js';
import * as out from './out.js';
import * as people from './people.js';
import * as plans from './plans.js';
import * as recalls from './recalls.js';
import * as sites from './sites.js';
import * as stock from './stock.js';

/** The one list of collections: tables, loading, saving, rebuilding and the tablet's snapshot all read it. */
export const collections = {
  person: people.person,
  personLeft: people.personLeft,
  roleGiven: people.roleGiven,
  roleTaken: people.roleTaken,
  place: sites.place,
  placeOut: sites.placeOut,
  instrument: sites.instrument,
  instrumentOut: sites.instrumentOut,
  instrumentCheck: sites.instrumentCheck,
  specification: catalogue.specification,
  party: catalogue.party,
  partyStopped: catalogue.partyStopped,
  formulaVersion: formulas.formulaVersion,
  formulaRetired: formulas.formulaRetired,
  planVersion: plans.planVersion,
  controlPoint: plans.controlPoint,
  delivery: stock.delivery,
  lot: stock.lot,
  receiptDecision: stock.receiptDecision,
  lotIdentified: stock.lotIdentified,
  flow: stock.flow,
  inUse: stock.inUse,
  emptied: stock.emptied,
  counted: stock.counted,
  moved: stock.moved,
  make: makes.make,
  mixed: makes.mixed,
  oneOff: makes.oneOff,
  makeEnded: makes.makeEnded,
  divided: makes.divided,
  run: makes.run,
  stage: makes.stage,
  load: baking.load,
  loadLine: baking.loadLine,
  loadStep: baking.loadStep,
  batch: baking.batch,
  release: baking.release,
  releasedSubject: baking.releasedSubject,
  hold: baking.hold,
  holdLifted: baking.holdLifted,
  reading: control.reading,
  readingNotTaken: control.readingNotTaken,
  deviation: control.deviation,
  correctiveAction: control.correctiveAction,
  cleanDown: control.cleanDown,
  disposition: control.disposition,
  deviationClosed: control.deviationClosed,
  departure: out.departure,
  returned: out.returned,
  onCounter: out.onCounter,
  recallCase: recalls.recallCase,
  recallScopeLot: recalls.recallScopeLot,
  recallContact: recalls.recallContact,
  recallClosed: recalls.recallClosed,
  accessGiven: inspection.accessGiven,
  accessEnded: inspection.accessEnded,
} as const;
