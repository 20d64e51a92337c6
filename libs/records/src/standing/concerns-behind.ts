import type { Row, State } from '../base/state.js';
import { firstLoadIds } from './first-load.js';
import { notReadIds } from './not-read.js';
import { pastLifeIds, usedPastLives } from './past-life.js';
import { reworkId } from './rework.js';
import { keepsUntil, pastUseById } from './use-by.js';

/**
 * The concerns that a deviation tells of: itself where it holds, what a use past a use-by date or a life makes, what went in against the rule about rework, and what it says of later loads of the day, which is
 * worked out from the records as they stand. A decision that names the deviation is about all of them.
 */
export function concernsBehind(
  state: State,
  d: Pick<Row<'deviation'>, 'id' | 'type' | 'lot' | 'at' | 'subject' | 'point'>,
  at: string | null = null,
): string[] {
  const used = d.type === 'expired-lot-used' && d.lot !== null ? keepsUntil(state, d.lot, at) : [];
  const rework = d.type === 'rework-against-rule' ? [reworkId(d.subject)] : [];
  return [
    d.id,
    ...rework,
    ...used.map((k) => pastUseById(k.lot)),
    ...pastLifeIds(state, d, at),
    ...firstLoadIds(state, d),
    ...notReadIds(state, d),
  ];
}

/** The concerns that a deviation stands for, by their ids alone and without the opening that they are about: itself, and what is worked out of the records about the same subject. */
export const concernIdsOf = ({ id, type, lot, subject }: Pick<Row<'deviation'>, 'id' | 'type' | 'lot' | 'subject'>): string[] => [
  id,
  ...(type === 'rework-against-rule' ? [reworkId(subject)] : []),
  ...(type === 'expired-lot-used' && lot !== null ? [pastUseById(lot)] : []),
  ...(type === 'past-life-used' && lot !== null ? usedPastLives(lot) : []),
];
