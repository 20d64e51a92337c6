import { sumOfKnown } from '@bakehouse/kernel';
import type { Need, Row, State } from '../base/state.js';
import type { ConcernType } from '../rows/baking.js';
import { channel } from '../rows/out.js';
import { eachAmountOnce } from '../rows/stock.js';
import { codeNeeds, hadCodeBefore, samePieces, samePiecesNeeds, samePiecesText, sharesPieces } from './counted-twice.js';
import { cleanOutNeeds, usedAfterCleanOut } from './after-clean-out.js';
import { measureOf } from './lot-rows.js';
import { goneNeeds, surelyLeft } from './surely-gone.js';

/** More came out of a make than went in, beyond this part of what went in, cannot be a rounding of scaling weights. Common practice, no source. */
export const excessPpm = 50_000;

/** What went this way does not come back. */
export const staysAway = channel.extract(['waste', 'sample', 'feed']).options;

interface Arithmetic {
  readonly type: ConcernType;
  readonly since: string;
  readonly what: string | null;
}

/** What has to be looked for, as far as can be named now, before `arithmeticOf` can be asked. */
export function arithmeticNeeds(state: State, lot: string): Need[] {
  const first: Need[] = [
    { in: 'make', id: lot },
    { in: 'run', id: lot },
    { in: 'batch', id: lot },
    { in: 'flow', by: 'target', value: lot },
    { in: 'departure', by: 'lot', value: lot },
    { in: 'returned', by: 'lot', value: lot },
    { in: 'onCounter', by: 'lot', value: lot },
    { in: 'lot', id: lot },
  ];
  if (!first.every((need) => state.knows(need))) return first;
  const own = [...first, ...cleanOutNeeds(state, lot), ...(wasDestroyed(state, lot) ? goneNeeds(state, lot) : [])];
  if (state.get('make', lot))
    return [
      ...own,
      { in: 'divided', by: 'make', value: lot },
      { in: 'makeEnded', by: 'make', value: lot },
      { in: 'flow', by: 'source', value: lot },
    ];
  const batch = state.get('batch', lot);
  if (batch) return [...own, ...samePiecesNeeds(batch.run), ...codeNeeds(batch)];
  return state.get('run', lot) ? [...own, ...samePiecesNeeds(lot)] : own;
}

const wasDestroyed = (state: State, lot: string): boolean => state.find('departure', 'lot', lot).some((d) => d.decided !== null);

/**
 * What the sums of a make or a run cannot be: something came of a make that nothing was weighed into; more than went in; more pieces were baked and
 * counted out of a run than it was divided into, or two batches were counted out of the same pieces of a load, or have the same code; more came back than was sent, so that food of another lot may be
 * among it; more is gone than there was of a lot that was destroyed, so that
 * something that should not be there any more was used or sold, or an amount is wrong; the content of a vessel was used after that was cleaned out. A later record that puts the sum right ends it.
 */
export function arithmeticOf(state: State, lot: string): Arithmetic[] {
  return [
    ...overdrawn(state, lot),
    ...broughtBack(state, lot),
    ...arithmeticOfMaking(state, lot),
    ...arithmeticOfBatch(state, lot),
    ...afterCleanOut(state, lot),
  ];
}

const found = (type: ConcernType, since: string, what: string | null = null): Arithmetic => ({ type, since, what });

function afterCleanOut(state: State, lot: string): Arithmetic[] {
  const used = usedAfterCleanOut(state, lot);
  return used.length === 0 ? [] : [found('used-after-clean-out', firstOf(used, ''))];
}

function overdrawn(state: State, lot: string): Arithmetic[] {
  if (!wasDestroyed(state, lot)) return [];
  const departures = state.find('departure', 'lot', lot);
  const row = state.get('lot', lot);
  const unit = measureOf(row);
  // Weights have their roundings; pieces, and what was destroyed to the last, have none.
  const exact = unit === 'pieces' || departures.some((d) => d.decided === 'rest');
  const rounding = exact ? 0 : ((row?.mg ?? 0) * excessPpm) / 1_000_000;
  const left = surelyLeft(state, lot, null);
  if (left === null || left >= -rounding) return [];
  return [found('more-gone-than-there-was', lastOf([...departures, ...state.find('flow', 'source', lot)], departures[0]?.at ?? ''))];
}

/** More came back from somebody than was sent to them, and to nobody in particular: a round or a counter sells to people who are not named. */
function broughtBack(state: State, lot: string): Arithmetic[] {
  const returned = state.find('returned', 'lot', lot);
  if (returned.length === 0) return [];
  const row = state.get('lot', lot);
  const unit = measureOf(row);
  const sent = state.find('departure', 'lot', lot).filter((d) => d.decided === null && !staysAway.some((c) => c === d.channel));
  const trips = new Map(sent.map((d) => [d.id, d]));
  const amounts = new Map<string | null, number>();
  const add = (customer: string | null, amount: number): void => void amounts.set(customer, (amounts.get(customer) ?? 0) + amount);
  for (const d of sent) add(d.customer, -(d[unit] ?? Infinity));
  for (const r of returned) add(r.customer ?? trips.get(r.departure ?? '')?.customer ?? null, r[unit] ?? 0);
  // What stood on a counter was sold to people whom nobody knows, and nobody counts each sale.
  const unnamed = state.find('onCounter', 'lot', lot).length > 0 ? -Infinity : Math.min(0, amounts.get(null) ?? 0);
  const tooMuch = [...amounts].reduce((sum, [customer, excess]) => sum + (customer === null ? 0 : Math.max(0, excess)), unnamed);
  const all = [...amounts.values()].reduce((sum, n) => sum + n, unnamed === -Infinity ? unnamed : 0);
  const rounding = unit === 'pieces' ? 0 : ((row?.mg ?? 0) * excessPpm) / 1_000_000;
  return Math.max(tooMuch, all) > rounding ? [found('more-back-than-sent', lastOf(returned, ''))] : [];
}

function arithmeticOfMaking(state: State, lot: string): Arithmetic[] {
  const make = state.get('make', lot);
  if (make) return arithmeticOfMake(state, make);
  const run = state.get('run', lot);
  if (!run) return [];
  return samePieces(state, lot).flatMap((same) =>
    same.from === 'run'
      ? [found('more-baked-than-divided', lastOf(same.batches, run.at), same.batches.length > 1 ? samePiecesText(same) : null)]
      : [],
  );
}

/** What its run says of all its batches is not said of each once more. */
function arithmeticOfBatch(state: State, lot: string): Arithmetic[] {
  const batch = state.get('batch', lot);
  if (!batch) return [];
  const [same, before] = [sharesPieces(state, batch), hadCodeBefore(state, batch)];
  return [
    ...(same?.from === 'loads' ? [found('counted-twice', lastOf(same.batches, batch.at), samePiecesText(same))] : []),
    ...(before ? [found('code-given-twice', batch.at, `${before.code}, of ${before.pieces} pieces counted out before`)] : []),
  ];
}

function arithmeticOfMake(state: State, make: Row<'make'>): Arithmetic[] {
  const into = eachAmountOnce(state.find('flow', 'target', make.id));
  const divisions = state.find('divided', 'make', make.id);
  const came = [...divisions, ...state.find('makeEnded', 'make', make.id), ...state.find('flow', 'source', make.id)];
  if (into.length === 0) return came.length > 0 ? [found('nothing-weighed-in', firstOf(came, make.at))] : [];
  // What was weighed when it was divided counts where a line was not weighed, and where more was weighed than the lines say.
  const [lines, weighed] = [sumOfKnown(into.map((f) => f.mg)), sumOfKnown(divisions.map((d) => d.weighedMg))];
  const inMg = lines === null ? (weighed ?? Infinity) : Math.max(lines, weighed ?? 0);
  const outMg = divisions.reduce((sum, d) => sum + d.runsMg + d.oldDoughMg + d.scrapMg, 0);
  return outMg > inMg * (1 + excessPpm / 1_000_000) ? [found('more-out-than-in', lastOf(divisions, make.at))] : [];
}

type Timed = readonly { readonly at: string }[];
const firstOf = (rows: Timed, otherwise: string): string =>
  rows.map((r) => r.at).reduce((a, b) => (a < b ? a : b), rows[0]?.at ?? otherwise);
const lastOf = (rows: Timed, otherwise: string): string => rows.map((r) => r.at).reduce((a, b) => (a > b ? a : b), otherwise);
