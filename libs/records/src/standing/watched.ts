import type { Change, CollectionName, Row } from '../base/state.js';
import { namesFood } from '../rows/control.js';

type Naming = { readonly [C in CollectionName]?: readonly (keyof Row<C> & string)[] };

/** The fields by which rows name lots at which a concern may begin because of them. */
const lots: Naming = {
  lot: ['id'],
  flow: ['source', 'target'],
  make: ['id'],
  divided: ['make'],
  makeEnded: ['make'],
  // what was allowed instead of flour
  oneOff: ['make'],
  run: ['id'],
  batch: ['id', 'run'],
  hold: ['lot'],
  holdLifted: ['lot'],
  // what must be read must have been read by then
  release: ['batch'],
  receiptDecision: ['lot'],
  recallScopeLot: ['lot'],
  departure: ['lot'],
  returned: ['lot'],
  counted: ['lot'],
  inUse: ['lot'],
  lotIdentified: ['same'],
  onCounter: ['lot'],
  // where it was, where a place is on hold
  moved: ['lot'],
  refusalEnded: ['lot'],
};
/** What is open until a row of another chain ends it. */
const open: Naming = { deviation: ['id'], deviationClosed: ['deviation'], hold: ['id'], holdLifted: ['hold'] };
/** A lot, or the delivery that it came with, or a load that it was baked in. */
const subjects: Naming = {
  reading: ['subject'],
  readingNotTaken: ['subject'],
  deviation: ['subject'],
  correctiveAction: ['subject'],
  disposition: ['subject'],
  stage: ['subject'],
  load: ['id'],
  loadStep: ['load'],
};
/** Which of its loads a batch was baked in follows from its run's. */
const runs: Naming = { loadLine: ['run'] };
/** What was there then, or within it, is on hold. */
const places: Naming = { placeHold: ['place'], placeHoldEnded: ['place'], place: ['id', 'within'] };
const cases: Naming = { recallCase: ['id'] };
/** What went into something else before that was known, or before it was known what it was, how old, and by when it had to be used. */
const contents: Naming = { emptied: ['lot'], lot: ['id'], lotIdentified: ['lot'], makeEnded: ['make'] };
/** Lots whose life this tells: what something went into is past it by that, or is not. */
const lives: Naming = { make: ['id'], makeEnded: ['make'], inUse: ['lot'], emptied: ['lot'] };
/** What of it was put back elsewhere counts what went into it. */
const putInto: Naming = { flow: ['target'], make: ['id'], lotIdentified: ['lot'] };
/** Lots that are in the house again, or are not, because of a row by which no concern begins. */
const inTheHouse: Naming = { emptied: ['lot'], loadLine: ['run'], lotIdentified: ['lot'] };
/** What was sent to a shop of the house is still there. */
const parties: Naming = { party: ['party'] };

/** The collections that `watchedBy` hears: by no row of another may a concern begin, or a deviation or a hold be open. */
export const watchedCollections: ReadonlySet<string> = new Set([
  ...[lots, open, subjects, runs, cases, contents, places, lives].flatMap((naming) => Object.keys(naming)),
  'instrumentCheck',
  'instrumentOut',
  // of a plan or a formula that nothing was made by yet
  'controlPoint',
  'formulaVersion',
  'planLife',
  'specification',
]);
/** The same of whether a lot may still be in the house. */
export const watchedInTheHouse: ReadonlySet<string> = new Set([lots, inTheHouse, parties].flatMap((naming) => Object.keys(naming)));

/** A check of an instrument, or when it went out of use: every later reading is in doubt then. */
interface Distrusted {
  readonly instrument: string;
  readonly at: string;
  readonly out: boolean;
}

/** A product in an oven on a day: the first load of these is read for the others. */
export type BakedOn = Pick<Row<'loadLine'>, 'bakeDay' | 'product' | 'oven'>;

export const bakedOnOf = (changes: readonly Change[]): BakedOn[] =>
  changes.flatMap((c) => (c.in === 'loadLine' ? { bakeDay: c.row.bakeDay, product: c.row.product, oven: c.row.oven } : []));

/** What some rows name, so that a concern may begin there, or at what belongs to it, now that they took the place of others. */
export interface Watched {
  /** Deviations and holds, themselves. */
  readonly open: readonly string[];
  readonly lots: readonly string[];
  readonly subjects: readonly string[];
  readonly runs: readonly string[];
  readonly bakedOn: readonly BakedOn[];
  readonly cases: readonly string[];
  readonly contents: readonly string[];
  readonly putInto: readonly string[];
  readonly distrusted: readonly Distrusted[];
  readonly inTheHouse: readonly string[];
  readonly parties: readonly string[];
  readonly places: readonly string[];
  readonly lives: readonly string[];
  /** From these instants on what is past its life is judged otherwise. */
  readonly livesSince: readonly string[];
}

/** Whether a row may speak about food. What was read of a room or an instrument names neither a lot nor what a lot was made in, and is the most of all that is recorded. */
export const mayBeAboutFood = (c: Change): boolean => (c.in !== 'reading' && c.in !== 'readingNotTaken') || namesFood(c.row.subjectType);

/** Of rows that came and rows that they took the place of. A good check puts nothing in doubt; to take one away may. */
export function watchedBy(after: readonly Change[], before: readonly Change[]): Watched {
  const changes = [...after.filter((c) => !(c.in === 'instrumentCheck' && c.row.passed)), ...before].filter(mayBeAboutFood);
  const named = (naming: Naming): string[] => [...new Set(changes.flatMap((c) => namedIn(c, naming[c.in] ?? [])))];
  const distrusted = changes.flatMap((c): Distrusted[] =>
    c.in === 'instrumentCheck' || c.in === 'instrumentOut'
      ? [{ instrument: c.row.instrument, at: c.row.at, out: c.in === 'instrumentOut' }]
      : [],
  );
  return {
    open: named(open),
    lots: named(lots),
    subjects: named(subjects),
    runs: named(runs),
    bakedOn: bakedOnOf(changes),
    cases: named(cases),
    contents: named(contents),
    putInto: named(putInto),
    distrusted,
    inTheHouse: named(inTheHouse),
    parties: named(parties),
    places: named(places),
    lives: named(lives),
    livesSince: [...after.filter((c) => c.in === 'planLife'), ...before].flatMap((c) =>
      c.in === 'planLife' || c.in === 'specification' ? c.row.since : [],
    ),
  };
}

function namedIn({ id, row }: Change, fields: readonly string[]): string[] {
  const values = Object.entries(row).flatMap(([field, value]) => (fields.includes(field) && typeof value === 'string' ? [value] : []));
  return fields.includes('id') ? [id, ...values] : values;
}
