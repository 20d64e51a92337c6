import * as z from 'zod';
import { batchCountedOut } from './baking/batch-counted-out.js';
import { holdLifted } from './baking/hold-lifted.js';
import { foodAtPlaceAccepted } from './baking/food-at-place-accepted.js';
import { holdPlaced } from './baking/hold-placed.js';
import { placeHoldEnded } from './baking/place-hold-ended.js';
import { placePutOnHold } from './baking/place-put-on-hold.js';
import { loadIn } from './baking/load-in.js';
import { loadStepped } from './baking/load-stepped.js';
import { releasedByException } from './baking/released-by-exception.js';
import { releasedByRule } from './baking/released-by-rule.js';
import type { AnyKind } from './base/kind.js';
import { partyAccepted } from './catalogue/party-accepted.js';
import { partyStopped } from './catalogue/party-stopped.js';
import { specificationAccepted } from './catalogue/specification-accepted.js';
import { cleanedDown } from './control/cleaned-down.js';
import { correctiveActionTaken } from './control/corrective-action-taken.js';
import { deviationClosed } from './closing/deviation-closed.js';
import { deviationReported } from './control/deviation-reported.js';
import { dispositionDecided } from './closing/disposition-decided.js';
import { readingNotTaken } from './control/reading-not-taken.js';
import { readingTaken } from './control/reading-taken.js';
import { bodiesWithheld } from './corrections/bodies-withheld.js';
import { wordsErased } from './corrections/words-erased.js';
import { entryWithdrawn } from './corrections/entry-withdrawn.js';
import { formulaApproved } from './formulas/formula-approved.js';
import { formulaRetired } from './formulas/formula-retired.js';
import { accessEnded } from './inspection/access-ended.js';
import { accessGiven } from './inspection/access-given.js';
import { addedOn } from './makes/added-on.js';
import { divided } from './makes/divided.js';
import { makeBegun } from './makes/make-begun.js';
import { makeEnded } from './makes/make-ended.js';
import { mixed } from './makes/mixed.js';
import { oneOffChanged } from './makes/one-off-changed.js';
import { stagePassed } from './makes/stage-passed.js';
import { weighedIn } from './makes/weighed-in.js';
import { putOnCounter } from './out/put-on-counter.js';
import { goodsReturned } from './out/returned.js';
import { sentOut } from './out/sent-out.js';
import { personJoined } from './people/person-joined.js';
import { personLeft } from './people/person-left.js';
import { pinSet } from './people/pin-set.js';
import { roleGiven } from './people/role-given.js';
import { roleTakenAway } from './people/role-taken-away.js';
import { planApproved } from './plans/plan-approved.js';
import { recallClosed } from './closing/recall-closed.js';
import { recallContactMade } from './recalls/recall-contact-made.js';
import { recallDispositionDecided } from './recalls/recall-disposition-decided.js';
import { recallNotified } from './recalls/recall-notified.js';
import { recallOpened } from './recalls/recall-opened.js';
import { recallScopeExtended } from './recalls/recall-scope-extended.js';
import { instrumentChecked } from './sites/instrument-checked.js';
import { instrumentInUse } from './sites/instrument-in-use.js';
import { instrumentOutOfUse } from './sites/instrument-out-of-use.js';
import { placeInUse } from './sites/place-in-use.js';
import { placeOutOfUse } from './sites/place-out-of-use.js';
import { siteDescribed } from './sites/site-described.js';
import { deliveryReceived } from './stock/delivery-received.js';
import { lotCounted } from './stock/lot-counted.js';
import { lotEmptied } from './stock/lot-emptied.js';
import { lotIdentified } from './stock/lot-identified.js';
import { lotOpened } from './stock/lot-opened.js';
import { lotsMoved } from './stock/lots-moved.js';
import { receiptDecided } from './stock/receipt-decided.js';
import { refusedGoodsAccepted } from './stock/refused-goods-accepted.js';
import { withdrawnLotAccepted } from './stock/withdrawn-lot-accepted.js';
import { vesselCleanedOut } from './stock/vessel-cleaned-out.js';
import { vesselToppedUp } from './stock/vessel-topped-up.js';

/**
 * The one list of kinds. Server, tablet, OpenAPI, phrases and tests all read it. A new kind is its file and its line here; the compiler then names
 * what else is missing: a good payload of it for the tests that try every kind (`test/support/every-kind.ts`), and a collection (`rows/`) where it
 * writes rows that are not there yet.
 */
export const kinds = [
  entryWithdrawn,
  personJoined,
  personLeft,
  roleGiven,
  roleTakenAway,
  siteDescribed,
  placeInUse,
  placeOutOfUse,
  instrumentInUse,
  instrumentOutOfUse,
  instrumentChecked,
  specificationAccepted,
  partyAccepted,
  partyStopped,
  formulaApproved,
  formulaRetired,
  planApproved,
  deliveryReceived,
  receiptDecided,
  refusedGoodsAccepted,
  withdrawnLotAccepted,
  lotIdentified,
  lotOpened,
  lotEmptied,
  lotCounted,
  lotsMoved,
  vesselToppedUp,
  vesselCleanedOut,
  makeBegun,
  weighedIn,
  mixed,
  oneOffChanged,
  stagePassed,
  divided,
  addedOn,
  makeEnded,
  loadIn,
  loadStepped,
  batchCountedOut,
  releasedByRule,
  releasedByException,
  holdPlaced,
  holdLifted,
  placePutOnHold,
  placeHoldEnded,
  foodAtPlaceAccepted,
  readingTaken,
  readingNotTaken,
  deviationReported,
  correctiveActionTaken,
  dispositionDecided,
  deviationClosed,
  cleanedDown,
  sentOut,
  goodsReturned,
  putOnCounter,
  recallOpened,
  recallScopeExtended,
  recallDispositionDecided,
  recallContactMade,
  recallNotified,
  recallClosed,
  accessGiven,
  accessEnded,
  pinSet,
  bodiesWithheld,
  wordsErased,
] as const satisfies readonly AnyKind[];

export type KindName = (typeof kinds)[number]['name'];
export type KindNamed<K extends KindName> = Extract<(typeof kinds)[number], { readonly name: K }>;
/** Looked up by name, so that an entry of one kind is an entry of any. */
type Read = { readonly [K in KindName]: z.output<KindNamed<K>['payload']> };
type Written = { readonly [K in KindName]: z.input<KindNamed<K>['payload']> };
type Outcomes = { readonly [K in KindName]: z.output<KindNamed<K>['outcome']> };
/** A payload as reading gives it, and as somebody writes it. */
export type PayloadOf<K extends KindName> = Read[K];
export type PayloadFor<K extends KindName> = Written[K];
export type OutcomeOf<K extends KindName> = Outcomes[K];

/** What a person records: everything about an entry that a device cannot know by itself. */
export interface NewEntryOf<K extends KindName> {
  readonly kind: K;
  readonly payload: PayloadFor<K>;
  readonly words?: Readonly<Record<string, string>>;
  readonly corrects?: string;
  /** When it happened, where that is not now. */
  readonly at?: Date;
  readonly precision?: 'exact' | 'about';
  /** Who did it, where that is not who types. */
  readonly doneBy?: string | null;
}
/** A new entry of any kind, its payload tied to its kind. */
export type NewEntry = { [K in KindName]: NewEntryOf<K> }[KindName];

const byName = new Map<string, AnyKind>(kinds.map((k) => [k.name, k]));
const named = z.looseObject({ kind: z.string() });

/** The kind that something sent says it is, if it is one. */
export function kindOf(raw: unknown): AnyKind | undefined {
  const parsed = named.safeParse(raw);
  return parsed.success ? byName.get(parsed.data.kind) : undefined;
}

/** The declared kind of a name, with its types. */
export function kindNamed<K extends KindName>(name: K): KindNamed<K> {
  const isIt = (kind: (typeof kinds)[number]): kind is KindNamed<K> => kind.name === name;
  const found = kinds.find(isIt);
  if (!found) throw new Error(`no kind ${name}`);
  return found;
}

/** A payload read by its kind, or undefined where it does not fit. */
export const payloadOf = <K extends KindName>(kind: K, payload: unknown): PayloadOf<K> | undefined =>
  kindNamed(kind).payload.safeParse(payload).data as PayloadOf<K> | undefined; // this kind's own schema read it; TypeScript sees any kind's

/** An outcome read by its kind, or undefined where it does not fit. */
export const outcomeOf = <K extends KindName>(kind: K, outcome: unknown): OutcomeOf<K> | undefined =>
  kindNamed(kind).outcome.safeParse(outcome).data as OutcomeOf<K> | undefined; // as above
