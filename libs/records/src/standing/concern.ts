import { grouped } from '@bakehouse/kernel';
import { atHeldPlace, heldPlaceNeeds, heldPlaceText } from './at-held-place.js';
import { arithmeticOf, arithmeticNeeds } from './arithmetic.js';
import type { Need, Row, State } from '../base/state.js';
import { holding, holdingNeeds, usesAll } from '../control/holds-release.js';
import { loadsNeeds, loadsOfBatch } from '../control/loads-of.js';
import { atFirstLoad, firstLoadNeeds, firstLoadsNotRead, type AtFirstLoad } from './first-load.js';
import { unsettledAt, type Unsettled } from '../control/unsettled.js';
import { batchAt } from './musts.js';
import { notReadAt, notReadCalled, notReadCovered, notReadNeeds } from './not-read.js';
import { refusalNeeds, refusedIn } from './refusals.js';
import { releasedNeeds } from './released.js';
import { reworkId, reworkNeeds, reworkSince, reworkTexts, reworkTroubles } from './rework.js';
import { stillSeen } from './seen.js';
import { stillCovers } from './told.js';
import { concernsBehind } from './concerns-behind.js';
import { pastLifeAt, pastLifeId, pastLifeNeeds, pastLifeText, usedPastLife, usedPastLifeId, type PastUse } from './past-life.js';
import { pastUseById, pastUseByText, usedPast } from './use-by.js';
import { withdrawnAt, withdrawnNeeds } from './withdrawn.js';
import type { ConcernType } from '../rows/baking.js';

/** Something on record that speaks against using or selling a lot and what comes of it, until a signed decision ends it. */
export interface Concern {
  /** The hold, the case, the deviation or the decision behind it; the lot itself where the sums speak against it. */
  readonly id: string;
  readonly type: ConcernType;
  /** The lot that it begins at, and what was recorded about: that lot, or its delivery, or a load that it was baked in. */
  readonly lot: string;
  readonly subject: string;
  readonly what: string | null;
  readonly since: string;
  readonly certain: boolean;
  /** What was taken of the lot before this instant has nothing to do with it; without it, all that ever was. */
  readonly takenFrom?: string;
}

/**
 * What is worked out of the records and has no act of its own by which it ends: a decision about the food may name it. The others end where they began: a hold is
 * lifted, a case and a deviation decided on, refused goods accepted, sums put right.
 */
const endedByDisposition: ReadonlySet<ConcernType> = new Set([
  'used-past-use-by',
  'used-past-life',
  'past-life',
  'weigh-again',
  'unsettled',
  'first-load-outside',
  'first-load-not-read',
  'not-read',
  'rework-against-rule',
]);
export const endsByDisposition = (type: ConcernType): boolean => endedByDisposition.has(type);

/** What one lot is recorded under: its own id, its delivery, and for a batch the loads that it was baked in. */
export function subjectsAt(state: State, lot: string): string[] {
  const delivery = state.get('lot', lot)?.delivery ?? null;
  const batch = state.get('batch', lot);
  return [lot, ...(delivery === null ? [] : [delivery]), ...(batch ? loadsOfBatch(state, batch) : [])];
}

/** Every decision about a lot, under whatever it is recorded. */
export const dispositionsOf = (state: State, lot: string): Row<'disposition'>[] =>
  subjectsAt(state, lot).flatMap((s) => state.find('disposition', 'subject', s));

/** What has to be looked for, as far as can be named now, before `subjectsAt` can be asked. */
export function subjectsNeeds(state: State, lot: string): Need[] {
  const batch = batchAt(state, lot);
  return [{ in: 'lot', id: lot }, { in: 'batch', id: lot }, ...(batch ? loadsNeeds(batch) : [])];
}

const batchNeeds = (state: State, lot: string): Need[] => {
  const batch = batchAt(state, lot);
  return batch ? [...loadsNeeds(batch), ...firstLoadNeeds(state, batch)] : [];
};

const known = (state: State, lot: string): boolean =>
  [{ in: 'lot', id: lot } as const, { in: 'batch', id: lot } as const, ...batchNeeds(state, lot)].every((need) => state.knows(need));

/** What has to be looked for, as far as can be named now, before `concernsAt` and `decidedAt` can be asked of a lot. */
export function concernNeeds(state: State, lot: string): Need[] {
  const first: Need[] = [
    ...withdrawnNeeds(state, lot),
    { in: 'batch', id: lot },
    { in: 'hold', by: 'lot', value: lot },
    { in: 'holdLifted', by: 'lot', value: lot },
    ...refusalNeeds(lot),
    { in: 'recallScopeLot', by: 'lot', value: lot },
    { in: 'recallDecision', by: 'lot', value: lot },
    ...releasedNeeds(lot),
    ...batchNeeds(state, lot),
    ...arithmeticNeeds(state, lot),
    ...notReadNeeds(state, lot),
    ...heldPlaceNeeds(state, lot),
    ...pastLifeNeeds(state, lot),
    ...reworkNeeds(state, lot),
  ];
  if (!known(state, lot) || !state.knows({ in: 'recallScopeLot', by: 'lot', value: lot })) return first;
  return [
    ...first,
    ...subjectsAt(state, lot).flatMap((s) => holdingNeeds(state, s)),
    ...state.find('recallScopeLot', 'lot', lot).map((s): Need => ({ in: 'recallCase', id: s.recall })),
  ];
}

/**
 * The concerns that begin at a lot, as known at an instant, or now: a hold nobody lifted, a place on hold that it was at, a case that names it, a deviation that holds it, received goods
 * that were refused, a use past a use-by date or a life, that it is past its life on the day that is asked for, a use although the record of the lot was withdrawn, a critical reading that settles nothing, a first load of its day that does not speak for it, a critical reading that was not taken by when it was used, rework against the rule of its formula, sums that cannot be. Needs `concernNeeds`.
 */
export function concernsAt(state: State, lot: string, at: string | null = null, now: string | null = null): Concern[] {
  if (cameForItsLife(state, lot)) return [];
  const then = <T extends { readonly at: string }>(rows: readonly T[]): T[] => rows.filter((row) => at === null || row.at <= at);
  const lifted = new Set(then(state.find('holdLifted', 'lot', lot)).map((f) => f.hold));
  const holds = then(state.find('hold', 'lot', lot)).filter((h) => !lifted.has(h.id));
  const deviations = subjectsAt(state, lot).flatMap((s) => then(holding(state, s)));
  const refused = then(refusedIn(state, lot));
  const closed = new Set(subjectsAt(state, lot).flatMap((s) => then(state.find('deviationClosed', 'subject', s)).map((c) => c.deviation)));
  const batch = state.get('batch', lot);
  const atFirst = batch ? atFirstLoad(state, batch, at) : [];
  return [
    ...recallsAt(state, lot, at),
    ...holds.map((h): Concern => ({ id: h.id, type: 'held', lot, subject: lot, what: h.because, since: h.at, certain: true })),
    ...placesHeld(state, lot, at),
    ...deviations.map((d): Concern => ({
      id: d.id,
      type: closed.has(d.id) ? 'closed-deviation' : 'open-deviation',
      lot,
      subject: d.subject,
      what: d.summary,
      since: d.at,
      certain: true,
    })),
    ...undecidedReadings(state, lot, at, atFirst),
    ...firstLoads(lot, atFirst),
    ...refused.map((r): Concern => ({ id: r.id, type: 'refused', lot, subject: lot, what: r.condition, since: r.at, certain: true })),
    ...usedPast(state, lot, at).map(({ keeps, ...used }): Concern => {
      return { id: pastUseById(keeps.lot), type: 'used-past-use-by', lot, subject: lot, what: pastUseByText(keeps), ...used };
    }),
    ...usesPastLife(state, lot, at),
    ...pastLifeHere(state, lot, at, now),
    ...rework(state, lot, at),
    ...withdrawn(state, lot),
    ...notReadAt(state, lot, at).map(({ parameter: what, ...of }): Concern => ({ type: 'not-read', lot, what, certain: true, ...of })),
    ...arithmeticOf(state, lot).map((a): Concern => ({ id: `${a.type} ${lot}`, lot, subject: lot, certain: true, ...a })),
  ];
}

function rework(state: State, lot: string, at: string | null): Concern[] {
  const troubles = reworkTroubles(state, lot, at);
  const since = troubles.length === 0 ? undefined : reworkSince(state, lot, at);
  if (since === undefined) return [];
  return [{ id: reworkId(lot), type: 'rework-against-rule', lot, subject: lot, what: reworkTexts(troubles), since, certain: true }];
}

/** A make without its lot is on a device for how long it keeps alone, without what went into it and what was read of it: where something spoke against it, all of that would be there. */
const cameForItsLife = (state: State, lot: string): boolean => state.get('make', lot) !== undefined && state.get('lot', lot) === undefined;

/** What was made of it before it was there is not concerned. */
const placesHeld = (state: State, lot: string, at: string | null): Concern[] =>
  atHeldPlace(state, lot, at).map(({ hold, from, certain }) => {
    const since = from > hold.at ? from : hold.at;
    return { id: hold.id, type: 'place-held', lot, subject: lot, what: heldPlaceText(hold), since, certain, takenFrom: from };
  });

/** What was past its life when it was put in, unless a decision about that covers what was made of it. */
const usesPastLife = (state: State, lot: string, at: string | null): Concern[] =>
  usedPastLife(state, lot, at, (use) => stillHeld(state, use)).flatMap(({ past, usedAt: since, certain }): Concern[] => {
    const id = usedPastLifeId(past);
    return decidedWhereKnown(state, past.lot, at)?.get(id) === 'what-came-of-it'
      ? []
      : [{ id, type: 'used-past-life', lot, subject: lot, what: pastLifeText(past), since, certain }];
  });

/** What an earlier plan alone held was on hold when it was used, unless somebody had decided about it by then. */
const stillHeld = (state: State, { source, past, at }: PastUse): boolean =>
  past.byPlanThen || ![source, past.lot].some((lot) => decidedWhereKnown(state, lot, at)?.has(pastLifeId(past)));

const decidedWhereKnown = (state: State, lot: string, at: string | null): ReadonlyMap<string, Covers> | undefined =>
  concernNeeds(state, lot).every((need) => state.knows(need)) ? decidedAt(state, lot, at) : undefined;

/** That it is past its life itself, at the instant that it is asked for. What is made of it from then on is concerned by its use: this stays where it is. */
const pastLifeHere = (state: State, lot: string, at: string | null, now: string | null): Concern[] =>
  now === null
    ? []
    : pastLifeAt(state, lot, { at: now, station: null }, at).map((past): Concern => {
        const { ends: since, certain } = past;
        return { id: pastLifeId(past), type: 'past-life', lot, subject: lot, what: pastLifeText(past), since, certain, takenFrom: never };
      });
/** After every instant: nothing carries it. */
const never = '9999-12-31T23:59:59.999Z';

function firstLoads(lot: string, atFirst: readonly AtFirstLoad[]): Concern[] {
  return atFirst.flatMap((f): Concern[] => {
    if (f.says === 'unsettled') return [];
    const type = f.says === 'outside' ? 'first-load-outside' : 'first-load-not-read';
    return [{ id: f.id, type, lot, subject: f.load, what: f.parameter, since: f.since, certain: true }];
  });
}

function withdrawn(state: State, lot: string): Concern[] {
  const [id, since] = [withdrawnAt(state, lot), state.get('lot', lot)?.at];
  return id === null || since === undefined ? [] : [{ id, type: 'withdrawn', lot, subject: lot, what: null, since, certain: true }];
}

/**
 * One for each reading that was too close to call, and one for each failed check or withdrawal of an instrument, whatever it leaves in doubt here: that is
 * what somebody decides about.
 */
function undecidedReadings(state: State, lot: string, at: string | null, atFirst: readonly AtFirstLoad[]): Concern[] {
  const before = atFirst.flatMap((f) => (f.says === 'unsettled' ? f.unsettled : []));
  const all = [...subjectsAt(state, lot).flatMap((s) => unsettledAt(state, s, at)), ...before];
  return [...grouped(all, (u) => u.doubt?.id ?? u.reading.id)].flatMap(([id, [first, ...more]]): Concern[] => {
    if (!first) return [];
    const { reading, doubt } = first;
    const what = [...new Set([first, ...more].map((u) => u.reading.parameter))].join(', ');
    const since = doubt && doubt.at > reading.at ? doubt.at : reading.at;
    return [
      {
        id,
        type: doubt ? 'weigh-again' : 'unsettled',
        lot,
        subject: reading.subject,
        what: `${what}: ${unsettledText(first)}`,
        since,
        certain: true,
      },
    ];
  });
}

/** Why a reading settles nothing, in a few words. */
export function unsettledText({ reading, doubt }: Unsettled): string {
  if (doubt === null) return reading.verdict === 'not-believable' ? 'not plausible' : 'too close to call';
  return doubt.why === 'failed-check' ? `${doubt.name ?? 'the thermometer'} failed its check` : 'the instrument was taken out of use';
}

/**
 * A case holds what it was opened on, and what touched that; whatever came of it is found by following. A practice holds nothing. What is in its scope more
 * than once, since it was extended, is there for certain where any of these is.
 */
function recallsAt(state: State, lot: string, at: string | null): Concern[] {
  const begins = state.find('recallScopeLot', 'lot', lot).filter((s) => s.begins);
  return [...grouped(begins, (s) => s.recall)].flatMap(([recall, scope]): Concern[] => {
    const of = state.get('recallCase', recall);
    if (!of || of.practice || (at !== null && of.at > at)) return [];
    const certain = scope.some((s) => s.certain);
    return [{ id: of.id, type: 'recall', lot, subject: lot, what: of.hazardName, since: of.at, certain }];
  });
}

/** The concerns that a decision names by their deviation, as they stood when it was signed, and where nothing behind them was corrected since. */
function toldOf(state: State, decision: Row<'disposition'>, subjects: readonly string[]): string[] {
  const { deviation, at } = decision;
  const d = state.knows({ in: 'deviation', id: deviation }) ? state.get('deviation', deviation) : undefined;
  return d ? concernsBehind(state, d, at).filter((concern) => stillCovers(state, decision, d, concern, subjects)) : [deviation];
}

/** The concerns that a decision about a lot is about: what its deviation tells of, and what it names beside it, as they stand. */
export const endedBy = (state: State, decision: Row<'disposition'>, subjects: readonly string[]): string[] => [
  ...toldOf(state, decision, subjects),
  ...decision.findings.flatMap((f) => (f.concern !== null && stillSeen(state, f) ? [f.concern] : [])),
];

export type Covers = Row<'disposition'>['covers'];

/**
 * The concerns that a signed decision about this lot ended, as known at an instant, or now, each with whether what came of it is covered too. Needs
 * `concernNeeds`.
 */
function decidedAt(state: State, lot: string, at: string | null = null): ReadonlyMap<string, Covers> {
  const then = <T extends { readonly at: string }>(rows: readonly T[]): T[] => rows.filter((row) => at === null || row.at <= at);
  const decided = new Map<string, Covers>();
  const note = (concern: string, covers: Covers): void => {
    if (decided.get(concern) !== 'what-came-of-it') decided.set(concern, covers);
  };
  const subjects = subjectsAt(state, lot);
  for (const d of subjects.flatMap((s) => then(state.find('disposition', 'subject', s))).filter(usesAll)) {
    for (const concern of endedBy(state, d, subjects)) note(concern, d.covers);
  }
  for (const d of then(state.find('recallDecision', 'lot', lot))) if (d.decision === 'freed') note(d.recall, d.covers);
  for (const e of then(state.find('refusalEnded', 'lot', lot))) note(e.refusal, e.covers);
  const releases = then(state.find('release', 'batch', lot));
  const findings = releases.flatMap((r) => r.findings);
  for (const f of findings) if (f.concern !== null && stillSeen(state, f)) note(f.concern, 'this-alone');
  for (const concern of findings.flatMap((f) => notReadCovered(state, f))) note(concern, 'this-alone');
  const batch = releases.length > 0 ? state.get('batch', lot) : undefined;
  if (batch) for (const r of releases) for (const concern of firstLoadsNotRead(state, batch, r.findings)) note(concern, 'this-alone');
  return decided;
}

/** What a signed decision about this lot that ended a concern covers, as known at an instant, or now; undefined where none did. Needs `concernNeeds`. */
export function decidedAbout(
  state: State,
  lot: string,
  { id, type, subject, what }: Concern,
  at: string | null = null,
): Covers | undefined {
  const decided = decidedAt(state, lot, at);
  return decided.get(id) ?? (type === 'not-read' ? decided.get(notReadCalled(subject, what)) : undefined);
}
