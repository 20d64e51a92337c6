import { derivedId, formatGrams, refuse, type Refused } from '@bakehouse/kernel';
import type { Change, Need, Row, State } from '../base/state.js';
import type { Channel } from '../rows/out.js';
import { loadsNeeds, loadsOfBatch } from './loads-of.js';
import { countedInPieces } from '../rows/stock.js';

interface Amount {
  readonly mg: number | null;
  readonly pieces: number | null;
}

/** Decisions that take food out of the house, and where it goes. What is to be reworked stays until it is weighed in. */
const channels: Readonly<Partial<Record<string, Channel>>> = {
  destroyed: 'waste',
  feed: 'feed',
  'returned-to-supplier': 'supplier-return',
};

export const doesAway = (decision: Row<'disposition'>['disposition'] | Row<'recallDecision'>['decision']): boolean =>
  channels[decision] !== undefined;

/** Why an amount of a lot cannot be done away with as it was given, or null: it is measured as the lot is, so that it comes off what is left. */
export function amountProblem(lot: Row<'lot'>, { mg, pieces }: Amount): Refused | null {
  const inPieces = countedInPieces(lot);
  if (inPieces && mg !== null) return refuse('unacceptable-value', 'payload.quantity', 'pieces');
  return !inPieces && lot.mg !== null && pieces !== null ? refuse('unacceptable-value', 'payload.quantity', 'a weight') : null;
}

/**
 * Why a part of a lot cannot be decided on to be used, or null: with what was accepted of it before, under the same deviation, it is no more than there ever was of the lot. What is destroyed is counted as it
 * is, more or not.
 */
export function moreThanThereWas(lot: Row<'lot'>, amount: Amount, before: readonly Amount[]): Refused | null {
  const unit = lot.pieces === null ? 'mg' : 'pieces';
  const [there, accepted] = [lot[unit], before.reduce((sum, d) => sum + (d[unit] ?? 0), 0)];
  if (there === null || amount[unit] === null || amount[unit] + accepted <= there) return null;
  const already = accepted === 0 ? '' : `, with ${unit === 'pieces' ? accepted : formatGrams(accepted, 'metric')} accepted before`;
  const most = unit === 'pieces' ? there : formatGrams(there, 'metric');
  return refuse('unacceptable-value', 'payload.quantity', `at most what there was of it: ${most}${already}; or no amount for the whole`);
}

interface Leaving extends Amount {
  readonly root: string;
  readonly at: string;
  readonly site: string;
  /** Whether an amount was at the site that recorded it, or anywhere in the house. */
  readonly amount: 'amount' | 'amount-at-site';
}

/** The rows by which what a signed decision does away with leaves its lots: so much, or all that is left, of each. */
export function leavingRows(
  decision: Row<'disposition'>['disposition'] | Row<'recallDecision'>['decision'],
  lots: readonly string[],
  { root, at, mg, pieces, site, amount }: Leaving,
): Change[] {
  const channel = channels[decision];
  if (channel === undefined) return [];
  return lots.map((lot) => ({
    in: 'departure',
    id: derivedId(root, `leaves ${lot}`),
    row: {
      lot,
      channel,
      customer: null,
      trip: root,
      mg,
      pieces,
      how: pieces === null ? 'weighed' : 'counted',
      certain: true,
      anyOf: null,
      unattended: false,
      site,
      decided: mg === null && pieces === null ? 'rest' : amount,
      at,
      // It leaves as the decision says, whenever it was carried out.
      earliest: null,
      until: null,
    },
  }));
}

/** What has to be looked for, as far as can be named now, before `foodOf` can be asked. */
export function foodNeeds(state: State, type: Row<'deviation'>['subjectType'], subject: string): Need[] {
  const lot: Need = { in: 'lot', id: subject };
  if (type === 'delivery') return [lot, { in: 'lot', by: 'delivery', value: subject }];
  if (type !== 'load') return [lot];
  const lines: Need = { in: 'loadLine', by: 'load', value: subject };
  if (!state.knows(lines)) return [lot, lines];
  return [
    lot,
    lines,
    ...state
      .find('loadLine', 'load', subject)
      .flatMap((l): Need[] => [
        { in: 'lot', id: l.run },
        { in: 'batch', by: 'run', value: l.run },
        ...loadsNeeds(l),
        ...(state.knows({ in: 'batch', by: 'run', value: l.run })
          ? state.find('batch', 'run', l.run).map((b): Need => ({ in: 'lot', id: b.id }))
          : []),
      ]),
  ];
}

/**
 * The lots that a deviation is about, each with whether the whole of it is: the lot itself; those of a delivery; the batches that were baked in a load,
 * which may have come of other loads as well, or the runs of it that nobody has counted out yet. None of a place, an instrument or the site.
 */
export function foodOf(
  state: State,
  type: Row<'deviation'>['subjectType'],
  subject: string,
): { readonly lot: Row<'lot'>; readonly whole: boolean }[] {
  const named = (lot: string, whole: boolean) => {
    const row = state.get('lot', lot);
    return row ? [{ lot: row, whole }] : [];
  };
  if (type === 'delivery') return state.find('lot', 'delivery', subject).map((lot) => ({ lot, whole: true }));
  if (type !== 'load') return named(subject, true);
  const runs = [...new Set(state.find('loadLine', 'load', subject).map((l) => l.run))];
  return runs.flatMap((run) => {
    const batches = state.find('batch', 'run', run).map((b) => ({ id: b.id, loads: loadsOfBatch(state, b) }));
    const baked = batches.filter((b) => b.loads.includes(subject));
    return baked.length === 0 ? named(run, false) : baked.flatMap((b) => named(b.id, b.loads.length === 1));
  });
}
