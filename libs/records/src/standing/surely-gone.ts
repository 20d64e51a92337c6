import { latest } from '@bakehouse/kernel';
import type { Need, State } from '../base/state.js';
import { leftOf, movementsUntil, type Measure } from './left-of.js';

/** What has to be looked for before `surelyGone` can be asked. */
export const goneNeeds = (lot: string): Need[] => [
  { in: 'lot', id: lot },
  { in: 'flow', by: 'target', value: lot },
  { in: 'flow', by: 'source', value: lot },
  { in: 'departure', by: 'lot', value: lot },
  { in: 'returned', by: 'lot', value: lot },
  { in: 'counted', by: 'lot', value: lot },
  { in: 'emptied', by: 'lot', value: lot },
  { in: 'inUse', by: 'lot', value: lot },
  { in: 'divided', by: 'make', value: lot },
  { in: 'disposition', by: 'subject', value: lot },
  { in: 'recallDecision', by: 'lot', value: lot },
];

/** Decisions that do away with food; one without an amount is about the whole of it. */
const goneBy: readonly string[] = ['destroyed', 'returned-to-supplier', 'feed', 'reworked'];

/**
 * Whether nothing of a lot is left in the house, surely: the last count says so, or it was made up, emptied, done away with, or every movement is known and
 * they come to nothing. An amount that nobody knows, or more gone than there ever was, is never "not there": what is not surely gone is held.
 */
export function surelyGone(state: State, lot: string, at: string): boolean {
  const row = state.get('lot', lot);
  const until = <T extends { readonly at: string }>(rows: readonly T[]): T[] => rows.filter((r) => r.at <= at);
  const count = latest(until(state.find('counted', 'lot', lot)));
  const since = (t: string): boolean => !count || t >= count.at;
  const away = [...state.find('disposition', 'subject', lot), ...state.find('recallDecision', 'lot', lot)].filter(
    (d) => d.mg === null && d.pieces === null && goneBy.includes('disposition' in d ? d.disposition : d.decision),
  );
  if (until(away).some((d) => since(d.at))) return true;
  const back = latest(until(state.find('returned', 'lot', lot)).filter((r) => r.disposition === 'on-hand'));
  const opened = latest(until(state.find('inUse', 'lot', lot)));
  // Taken off a station is not emptied: a sack of the same lot may stand in the store. The content of a vessel went on into what came next.
  const emptied = state.find('emptied', 'lot', lot).filter((e) => row?.type === 'vessel' || e.leftMg === 0);
  const ended = [...until(state.find('divided', 'make', lot)), ...until(emptied)].filter((e) => since(e.at));
  if (ended.some((e) => (!opened || opened.at <= e.at) && (!back || back.at < e.at))) return true;
  const unit: Measure = row?.type === 'batch' || row?.type === 'run' ? 'pieces' : 'mg';
  return leftOf(row?.[unit] ?? null, certainMovements(state, lot, at), unit) === 0;
}

function certainMovements(state: State, lot: string, at: string) {
  const departures = state.find('departure', 'lot', lot);
  const rows = {
    into: state.find('flow', 'target', lot),
    // One of several lots left, nobody knows which: of this one, perhaps nothing.
    out: state.find('flow', 'source', lot).filter((f) => f.certain && f.anyOf === null),
    departures: departures.filter((d) => d.certain),
    returned: state.find('returned', 'lot', lot),
    counts: state.find('counted', 'lot', lot),
  };
  return movementsUntil(rows, at);
}
