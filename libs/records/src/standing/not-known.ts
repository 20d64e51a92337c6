import { latest } from '@bakehouse/kernel';
import { isAlike } from './alike.js';
import { upstreamOf } from './links.js';
import type { Need, Row, State } from '../base/state.js';
import type { Finding } from '../rows/baking.js';

/** Whether a lot stands for one that nobody could name when it was used. Goods whose code is still to come are not meant: what came is known. */
export const isUnnamed = (lot: Pick<Row<'lot'>, 'type' | 'delivery'> | undefined): boolean =>
  lot?.type === 'placeholder' && lot.delivery === null;

/** The same of a lot of which nobody has said since that it is one of the house. A code alone does not say which. */
const staysUnnamed = (state: State, lot: string): boolean =>
  isUnnamed(state.get('lot', lot)) && state.find('lotIdentified', 'lot', lot).every((i) => i.same === null);

/** The code that a lot is known by now. */
const codeOf = (state: State, lot: string): string | null =>
  state.get('lot', lot)?.code ?? latest(state.find('lotIdentified', 'lot', lot).filter((i) => i.code !== null))?.code ?? null;

/** What has to be looked for, as far as can be named now, before `isNotKnown` can be asked of a lot. */
export function notKnownNeedsAt(state: State, lot: string): Need[] {
  const first: Need[] = [
    { in: 'lot', id: lot },
    { in: 'lotIdentified', by: 'lot', value: lot },
  ];
  if (!first.every((need) => state.knows(need)) || !staysUnnamed(state, lot)) return first;
  const ofMaterial = { in: 'lot', by: 'material', value: state.get('lot', lot)?.material ?? lot } as const;
  if (codeOf(state, lot) === null || !state.knows(ofMaterial)) return [...first, ofMaterial];
  const coded = state.find('lot', 'material', ofMaterial.value).filter((one) => one.code === null && !isUnnamed(one));
  return [...first, ofMaterial, ...coded.map((one): Need => ({ in: 'lotIdentified', by: 'lot', value: one.id }))];
}
export const notKnownNeeds = (state: State, lot: string): Need[] => upstreamOf(state, [lot]).flatMap((one) => notKnownNeedsAt(state, one));

/**
 * Whether nobody knows which lot this was, and it may have been one of the house: any of its material that came or was made by then, whichever was recorded first. Where
 * only its code was found, it may be any of those with that code. Where there was none, there is none that a concern could begin at.
 */
export function isNotKnown(state: State, lot: string): boolean {
  if (!staysUnnamed(state, lot)) return false;
  const { material, at } = state.get('lot', lot) ?? { material: lot, at: '' };
  const own = { id: lot, material, code: codeOf(state, lot) };
  return state
    .find('lot', 'material', material)
    .filter((one) => one.id !== lot && !isUnnamed(one) && one.type !== 'withdrawn' && one.at <= at)
    .some((one) => own.code === null || isAlike(own, { ...one, code: codeOf(state, one.id) }));
}

/** The lots that went in and that nobody knows, as what a batch waits for: no concern about a lot of the house could reach it. */
export const notKnownUpstream = (state: State, lot: string): Finding[] =>
  upstreamOf(state, [lot])
    .filter((one) => isNotKnown(state, one))
    .sort()
    .map((one) => ({
      code: 'lot-not-known',
      subject: one,
      what: state.get('lot', one)?.name ?? null,
      deviation: null,
      concern: null,
      saw: null,
    }));
