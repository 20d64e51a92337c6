import { concernNeeds, subjectsAt } from './concern.js';
import { restsOn } from './first-load.js';
import { clearSince, sourcesOf, upstreamOf } from './links.js';
import { mustNeedsAt, mustsAt } from './musts.js';
import { openAmong, standingNeeds } from './standings.js';
import type { Change, CollectionName, Need, State } from '../base/state.js';
import { isNotKnown, isUnnamed, notKnownNeedsAt } from './not-known.js';
import { livesAsAnother } from './past-life.js';
import { putBackRecently } from './rework-times.js';
import { keepsAsAnother } from './use-by.js';
import { bakedOnOf, mayBeAboutFood, type BakedOn } from './watched.js';
import { neverWas } from './withdrawn.js';
import { trustKnownBy } from '../control/unsettled.js';

/**
 * How the rows of a collection that standing is worked out from name what they speak about: by lots and what is recorded about them, by amounts of a
 * lot, which speak against it only where some of it was destroyed or came back; by where it was, which does where a place is on hold.
 */
const spokenBy: Partial<Record<CollectionName, 'lots' | 'amounts' | 'places' | 'everything'>> = {
  lot: 'lots',
  lotIdentified: 'lots',
  flow: 'lots',
  make: 'lots',
  divided: 'lots',
  makeEnded: 'lots',
  run: 'lots',
  batch: 'lots',
  loadLine: 'lots',
  release: 'lots',
  hold: 'lots',
  holdLifted: 'lots',
  receiptDecision: 'lots',
  refusalEnded: 'lots',
  deviation: 'lots',
  deviationClosed: 'lots',
  reading: 'lots',
  readingNotTaken: 'lots',
  correctiveAction: 'lots',
  disposition: 'lots',
  recallCase: 'lots',
  recallScopeLot: 'lots',
  recallDecision: 'lots',
  departure: 'amounts',
  returned: 'lots',
  counted: 'amounts',
  emptied: 'amounts',
  inUse: 'amounts',
  onCounter: 'amounts',
  moved: 'amounts',
  stage: 'places',
  load: 'places',
  loadStep: 'places',
  // whether what went to them left the house
  party: 'everything',
  controlPoint: 'everything',
  formulaVersion: 'everything',
  // of what is past its life
  planLife: 'everything',
  specification: 'everything',
  instrumentOut: 'everything',
  instrumentCheck: 'everything',
  place: 'everything',
  // what its formula says of rework counts it
  oneOff: 'lots',
  placeHold: 'everything',
  placeHoldEnded: 'everything',
};
/** The rows that say where a lot, or a load, was. */
const whereIt: Partial<Record<CollectionName, string>> = {
  moved: 'lot',
  inUse: 'lot',
  emptied: 'lot',
  counted: 'lot',
  stage: 'subject',
  load: 'id',
  loadStep: 'load',
};

/** What has to be looked for, as far as can be named now, before `clearAmong` can be asked about these lots and all that they come from. */
export function clearNeeds(state: State, lots: readonly string[]): Need[] {
  const needs = [
    ...standingNeeds(state, lots),
    ...upstreamOf(state, lots).flatMap((lot) => [...mustNeedsAt(state, lot), ...notKnownNeedsAt(state, lot)]),
  ];
  const unheard = needs.find((need) => spokenBy[need.in] === undefined);
  if (unheard)
    throw new Error(`nothing says what a row of ${unheard.in} speaks about, so it could not be told whether a lot is still clear`);
  return needs;
}

/**
 * Of these lots and all that they come from, those older than an instant that are clear: no concern is open there or passes through, and no *must* of a
 * make or batch that went in lacks its answer, none of them may be any lot of the house or has a use-by date or a life of something in it, had something put back into it recently, or is a withdrawn lot that a late record may turn out to have used. Each with the instant from which on that is so: the last one recorded of anything that was looked at.
 */
export function clearAmong(state: State, lots: readonly string[], before: string): ReadonlyMap<string, string> {
  const nodes = upstreamOf(state, lots).filter((lot) => clearSince(state, lot) === null);
  const waits = (lot: string): boolean =>
    mustsAt(state, lot).length > 0 ||
    neverWas(state, lot) ||
    isNotKnown(state, lot) ||
    keepsAsAnother(state, lot) ||
    livesAsAnother(state, lot) ||
    putBackRecently(state, lot, before);
  const troubled = new Set([...openAmong(state, nodes), ...nodes.filter(waits)]);
  const since = new Map<string, string>();
  const visiting = new Set<string>();
  // Sources first, without recursion: a chain may be thousands of lots long. A circle is never clear.
  const stack = [...nodes];
  for (let lot = stack.at(-1); lot !== undefined; lot = stack.at(-1)) {
    const open = visiting.has(lot) || since.has(lot) ? [] : sourcesOf(state, lot).filter((s) => !since.has(s) && !visiting.has(s));
    visiting.add(lot);
    if (open.length > 0) stack.push(...open);
    else {
      stack.pop();
      const from = sourcesOf(state, lot).map((s) => since.get(s) ?? clearSince(state, s));
      const last = from.includes(null) || troubled.has(lot) ? null : latestOf(state, lot, from);
      if (last !== null && last !== '' && last < before) since.set(lot, last);
    }
  }
  return since;
}

/** The last instant of what is on record at a lot and in what it comes from: asked about any later one, the answers are those of now. */
function latestOf(state: State, lot: string, from: readonly (string | null)[]): string {
  const { days, firstLoads } = restsOn(state, lot);
  const subjects = [...subjectsAt(state, lot), ...firstLoads];
  const own = [...concernNeeds(state, lot), { in: 'lotIdentified', by: 'lot', value: lot } satisfies Need]
    .filter((need) => state.knows(need) && isAbout(need, lot, [...subjects, ...days]))
    .flatMap((need): object[] => ('id' in need ? [state.get(need.in, need.id) ?? {}] : [...state.find(need.in, need.by, need.value)]))
    .flatMap((row) => ('at' in row && typeof row.at === 'string' ? [row.at] : []));
  const trusted = subjects.flatMap((s) => state.find('reading', 'subject', s)).flatMap((r) => trustKnownBy(state, r));
  return [...own, ...trusted, ...from].reduce<string>((last, at) => (at !== null && at > last ? at : last), '');
}

/** Whether a need is about the lot itself, and not about an instrument that was read with: that one is checked every day. */
const isAbout = (need: Need, lot: string, subjects: readonly string[]): boolean =>
  'id' in need ? need.in !== 'controlPoint' : need.value === lot || subjects.includes(need.value);

const uuid = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/;

/** What may not be clear any more. */
export interface Touched {
  /** The lots, and what else records are about. */
  readonly about: ReadonlySet<string>;
  /**
   * Lots of which an amount came or went, each with when that first was: no news of them, unless some of them was destroyed or came back, so that no more can be gone, or have come
   * back, than there was; or they were used before what they are noted as clear for was read.
   */
  readonly amounts: ReadonlyMap<string, string>;
  /** Materials that a lot came of, each with when: one that nobody could name from then on may be that lot. */
  readonly came: ReadonlyMap<string, string>;
  /** Lots and loads of which it was told where they were: news of them where a place is, or was, on hold. */
  readonly placed: ReadonlySet<string>;
  /** What was baked on that day of that product in that oven rests on its first load. */
  readonly bakedOn: readonly BakedOn[];
}

/**
 * What may not be clear any more once some rows took the place of others: all that they name, but the source of a flow and what else only says how much of
 * a lot came or went. `'everything'` where the rows do not say whom they concern; a good check of an instrument puts nothing in doubt.
 */
export function touchedBy(after: readonly Change[], before: readonly Change[]): Touched | 'everything' {
  // and nothing rests on a specification that was not there
  const news = after.filter((c) => !(c.in === 'instrumentCheck' && c.row.passed) && c.in !== 'specification');
  const changes = [...news, ...before].filter(mayBeAboutFood);
  if (changes.some((c) => spokenBy[c.in] === 'everything')) return 'everything';
  const about = changes
    .filter(
      (c) => spokenBy[c.in] === 'lots' || (c.in === 'departure' && c.row.decided !== null) || (c.in === 'emptied' && c.row.leftMg === 0),
    )
    .flatMap((c) => [c.id, ...Object.entries(c.row).flatMap(([field, value]) => (c.in === 'flow' && field === 'source' ? [] : value))])
    .filter((value): value is string => typeof value === 'string' && uuid.test(value));
  const amounts = changes.flatMap((c): [string, string][] => {
    const lot = c.in === 'flow' ? c.row.source : spokenBy[c.in] === 'amounts' && 'lot' in c.row ? c.row.lot : null;
    return lot === null || !('at' in c.row) ? [] : [[lot, c.row.at]];
  });
  const placed = changes.flatMap(({ in: of, id, row }) => {
    const field = whereIt[of];
    return field === undefined ? [] : field === 'id' ? [id] : Object.entries(row).flatMap(([f, v]) => (f === field ? [String(v)] : []));
  });
  const came = news.flatMap((c): [string, string][] => (c.in === 'lot' && !isUnnamed(c.row) ? [[c.row.material, c.row.at]] : []));
  return { about: new Set(about), amounts: earliest(amounts), came: earliest(came), placed: new Set(placed), bakedOn: bakedOnOf(changes) };
}

function earliest(times: Iterable<readonly [string, string]>): Map<string, string> {
  const first = new Map<string, string>();
  for (const [id, at] of times) first.set(id, [at, first.get(id) ?? at].sort()[0] ?? at);
  return first;
}

/** What may not be clear any more once the one and the other was written. */
export function inBoth(a: Touched | 'everything', b: Touched | 'everything'): Touched | 'everything' {
  if (a === 'everything' || b === 'everything') return 'everything';
  return {
    about: new Set([...a.about, ...b.about]),
    amounts: earliest([...a.amounts, ...b.amounts]),
    came: earliest([...a.came, ...b.came]),
    placed: new Set([...a.placed, ...b.placed]),
    bakedOn: [...a.bakedOn, ...b.bakedOn],
  };
}
