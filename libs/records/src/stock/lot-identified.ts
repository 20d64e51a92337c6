import { code, decided, id, refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { codeKeyOf } from '../standing/alike.js';
import { lifeEnds } from '../standing/life.js';
import { pastLifeAt } from '../standing/past-life.js';
import { isPastOpened, lotNeeds, troubleBy, usingNeeds, type LotTrouble } from '../standing/lot-trouble.js';
import { concernsOf } from '../standing/standings.js';
import { pastUseBy } from '../standing/use-by.js';
import { targetNeeds, use, usedDeviations, usedIn, useNeeds, type Use } from './used-in.js';
import { defineKind } from '../base/kind.js';
import type { Change, State } from '../base/state.js';
import { lotTrouble } from '../rows/stock.js';

/**
 * A lot whose code nobody had is named: its code, that it is the same as a lot already known, or both. The link turns from unknown to certain;
 * where the known lot is held or refused, whatever the unnamed one went into is told so at once, and what it went into past its use-by date.
 */
export const lotIdentified = defineKind({
  name: 'lot-identified',
  version: 1,
  book: 'site',
  type: 'fact',
  offline: true,
  signed: null,
  permission: 'record',
  phrase: 'A lot was identified',
  official: 'Lot identified',
  words: ['note'],
  payload: z
    .strictObject({ lot: id, code: code.nullable(), same: id.nullable(), delivery: id.nullable() })
    .refine((p) => p.code !== null || p.same !== null, { message: 'a code, or the lot that it is', path: ['code'] })
    .refine((p) => p.same !== p.lot, { message: 'another lot', path: ['same'] }),
  outcome: z.strictObject({ name: z.string(), trouble: lotTrouble.nullable(), usedIn: z.array(use) }),
  examples: [{ lot: '0190a6d0-7b3c-7000-8000-0000000000b1', code: 'E7731', same: null, delivery: null }],
  needs: (p) => [
    { in: 'lot', id: p.lot },
    ...useNeeds(p.lot),
    ...(p.same === null ? [] : lotNeeds(p.same)),
    ...(p.delivery === null ? [] : [{ in: 'delivery' as const, id: p.delivery }]),
  ],
  then: (p, state) => [...targetNeeds(state, p.lot), ...(p.same === null ? [] : usingNeeds(state, [p.same]))],
  decide({ payload: p, at }, state) {
    const lot = state.get('lot', p.lot);
    if (!lot) return refuse('unknown-lot', 'payload.lot');
    if (lot.codeState === 'own') return refuse('unacceptable-value', 'payload.lot', 'a lot that was received');
    if (p.same !== null && !state.get('lot', p.same)) return refuse('unknown-lot', 'payload.same');
    if (p.delivery !== null && !state.get('delivery', p.delivery)) return refuse('unknown-delivery', 'payload.delivery');
    const found = p.same === null ? { trouble: null, usedIn: [] } : troubleFound(state, p.lot, p.same, at);
    return decided({ name: lot.name, ...found });
  },
  rows: ({ payload: p, root, at }, o): Change[] => [
    {
      in: 'lotIdentified',
      id: root,
      row: { lot: p.lot, code: p.code, codeKey: codeKeyOf(p.code), same: p.same, delivery: p.delivery, at },
    },
    ...(o.trouble === null ? [] : usedDeviations(o.usedIn, { root, type: o.trouble, lot: p.lot, name: o.name, at })),
  ],
});

/**
 * What something that was used turned out to be in: past its use-by date when it was used, or past its life where the plan holds that; held or refused now; past its life. One that was
 * used in time and is named later is in no trouble by its date.
 */
function troubleFound(state: State, lot: string, same: string, at: string): { trouble: LotTrouble | null; usedIn: Use[] } {
  const past = usedIn(state, lot, (f) => pastUseBy(state, same, () => f.day).length > 0);
  if (past.length > 0) return { trouble: 'expired-lot-used', usedIn: past };
  const kept = usedIn(state, lot, (f) => pastLifeAt(state, same, { at: f.at, station: null }).length > 0);
  if (kept.length > 0) return { trouble: 'past-life-used', usedIn: kept };
  const trouble = troubleBy(concernsOf(state, [same], at).get(same) ?? []);
  if (trouble !== null) return { trouble, usedIn: usedIn(state, lot) };
  const life = lifeEnds(state, same);
  const old = usedIn(state, lot, (f) => (life !== null && life < f.at) || isPastOpened(state, same, f.at, null));
  return { trouble: old.length > 0 ? 'past-life-used' : null, usedIn: old };
}
