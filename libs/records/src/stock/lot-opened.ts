import { decided, derivedId, id, refuse, upcaster } from '@bakehouse/kernel';
import * as z from 'zod';
import { alikeHeld, alikeHeldNeeds } from '../standing/alike-held.js';
import { lotNeeds, troubleNeeds, troubleWith } from '../standing/lot-trouble.js';
import { allergensNewIn, newAllergens } from './new-allergens.js';
import { openAt } from './open-at.js';
import { placeholderLot } from './placeholder.js';
import { specificationAt } from '../control/specification-at.js';
import { defineKind } from '../base/kind.js';
import type { Change, Need, Row, State } from '../base/state.js';
import { lotTrouble } from '../rows/stock.js';

const before = z.strictObject({
  lot: id,
  placeholder: z.boolean(),
  name: z.string(),
  specification: id.nullable(),
  replaces: z.array(id),
  newAllergens,
  instead: z.boolean(),
  trouble: lotTrouble.nullable(),
});

/**
 * A lot was opened at a station for a material: mixes there take it from now on. It replaces what was open there for that material, unless it
 * stands beside it. It may be of another material that is used instead. Says at once which allergens come in that were not there before.
 */
export const lotOpened = defineKind({
  name: 'lot-opened',
  version: 1,
  book: 'site',
  type: 'fact',
  offline: true,
  signed: null,
  permission: 'record',
  phrase: 'A lot was opened',
  official: 'Lot taken into use',
  words: ['note'],
  payload: z.strictObject({
    station: id,
    material: id,
    /** Null where nobody can say which lot it is: a placeholder stands for it. */
    lot: id.nullable(),
    beside: z.boolean(),
  }),
  /** `alikeHeld`: lots of the same code and material that something spoke against; null where nobody looked. */
  outcome: before.extend({ alikeHeld: z.array(id).nullable() }),
  outcomeVersion: 2,
  upcastOutcome: { 1: upcaster(before, (same) => ({ ...same, alikeHeld: null })) },
  examples: [
    {
      station: '0190a6d0-7b3c-7000-8000-0000000000a3',
      material: '0190a6d0-7b3c-7000-8000-0000000000c1',
      lot: '0190a6d0-7b3c-7000-8000-0000000000b1',
      beside: false,
    },
  ],
  needs: (p) => [
    { in: 'place', id: p.station },
    { in: 'specification', by: 'material', value: p.material },
    ...(p.lot === null ? [] : lotNeeds(p.lot)),
    { in: 'inUse', by: 'station', value: p.station },
    { in: 'emptied', by: 'station', value: p.station },
  ],
  then: (p, state) => [
    ...(p.lot === null
      ? []
      : [...specificationOf(state.get('lot', p.lot)), ...troubleNeeds(state, [p.lot]), ...alikeHeldNeeds(state, p.lot)]),
    ...state
      .find('inUse', 'station', p.station)
      .filter((u) => u.material === p.material)
      .flatMap(specificationOf),
  ],
  decide({ payload: p, root, at }, state, { stamp, previous }) {
    if (!state.get('place', p.station)) return refuse('unknown-place', 'payload.station');
    const role = specificationAt(state, p.material, at);
    if (!role) return refuse('unknown-material', 'payload.material');
    const known = p.lot === null ? undefined : state.get('lot', p.lot);
    if (p.lot !== null && !known) return refuse('unknown-lot', 'payload.lot');
    const own = (known?.specification ? state.get('specification', known.specification) : undefined) ?? role;
    const openThen = openBefore(state, p, root, at);
    const declaredBefore = openThen.flatMap((u) => (u.specification === null ? [] : (state.get('specification', u.specification) ?? [])));
    const placeholder = p.lot === null || (previous?.outcome.placeholder === true && previous.outcome.lot === p.lot);
    return decided({
      lot: p.lot ?? derivedId(root, 'placeholder'),
      placeholder,
      name: known?.name ?? role.name,
      specification: known ? known.specification : role.id,
      replaces: p.beside ? [] : openThen.map((u) => u.lot),
      newAllergens: allergensNewIn(own, declaredBefore.length > 0 ? declaredBefore : [role]),
      instead: known !== undefined && known.material !== p.material,
      trouble: p.lot === null ? null : troubleWith(state, p.lot, at, stamp.zone),
      alikeHeld: p.lot === null ? [] : alikeHeld(state, p.lot, at),
    });
  },
  rows: ({ payload: p, root, at }, o, { book: site }): Change[] => [
    {
      in: 'inUse',
      id: root,
      row: {
        station: p.station,
        material: p.material,
        lot: o.lot,
        name: o.name,
        specification: o.specification,
        site,
        at,
        beside: p.beside,
      },
    },
    ...(o.placeholder ? [placeholderLot(o.lot, { ...o, material: p.material }, at)] : []),
  ],
});

const specificationOf = (row: { readonly specification: string | null } | undefined): Need[] =>
  row?.specification ? [{ in: 'specification', id: row.specification }] : [];

function openBefore(state: State, p: { station: string; material: string }, root: string, at: string): Row<'inUse'>[] {
  const others = state.find('inUse', 'station', p.station).filter((u) => u.material === p.material && u.id !== root);
  return openAt(others, state.find('emptied', 'station', p.station), at);
}
