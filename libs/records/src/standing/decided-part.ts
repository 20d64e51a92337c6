import { grouped } from '@bakehouse/kernel';
import { leftOf, type Measure } from './left-of.js';
import { measureOf, movementNeeds, movementsOf } from './lot-rows.js';
import { doesAway } from '../control/done-away.js';
import { letsUse } from '../control/holds-release.js';
import { acceptedHere } from './accepted-part.js';
import type { State } from '../base/state.js';
import type { DispositionChoice } from '../rows/control.js';
import type { ConcernType, Finding } from '../rows/baking.js';

interface Amount {
  readonly pieces: number | null;
  readonly mg: number | null;
}

/** What was decided about a part of a lot, by signed decisions that say how much, and what is left to decide on. */
export interface DecidedPart {
  readonly decided: readonly (Amount & { readonly decision: DispositionChoice })[];
  /** What is left undecided by the records, without what was accepted and is to be used; null where they cannot say. */
  readonly left: Amount | null;
  /** Of what was decided some may be among it still, to be reworked, or nobody can say how much: no more than `left` is undecided. */
  readonly atMost: boolean;
}

/** Where food goes that a decision takes out of the house, as the decision called it. */
const decisionOf: Readonly<Partial<Record<string, DispositionChoice>>> = {
  waste: 'destroyed',
  feed: 'feed',
  'supplier-return': 'returned-to-supplier',
};

/** Concerns that a signed decision about the food ends: a part of it may be decided on already. */
const decidedOn: readonly Finding['code'][] = ['recall', 'open-deviation', 'closed-deviation'] satisfies ConcernType[];

/**
 * What was decided about a part of a lot, as it is said beside one concern, or null where nothing was. What left by a decision is gone whatever it was decided under; what
 * may be used counts beside what it was decided under alone, since nobody has looked at it for anything else. What left is read from how it left, since a device holds that of a case as well. Asked where the lot's
 * movements are known (`goneNeeds`); else nothing is said of a part.
 */
export function decidedPart(
  state: State,
  lot: string,
  beside: { readonly type: Finding['code']; readonly id: string },
  at: string | null = null,
): DecidedPart | null {
  if (!decidedOn.includes(beside.type)) return null;
  const needs = [...movementNeeds(state, lot), { in: 'disposition', by: 'subject', value: lot } as const];
  if (!needs.every((need) => state.knows(need))) return null;
  const until = <T extends { readonly at: string }>(rows: readonly T[]): T[] => rows.filter((r) => at === null || r.at <= at);
  const away = until(state.find('departure', 'lot', lot)).flatMap(({ decided, channel, pieces, mg }) => {
    const decision = decided === 'amount' || decided === 'amount-at-site' ? decisionOf[channel] : undefined;
    return decision === undefined ? [] : [{ decision, pieces, mg }];
  });
  const kept = until(state.find('disposition', 'subject', lot))
    .filter((d) => d.deviation === beside.id && !doesAway(d.disposition) && (d.pieces !== null || d.mg !== null))
    .map(({ disposition: decision, pieces, mg }) => ({ decision, pieces, mg }));
  if (away.length + kept.length === 0) return null;
  const unit: Measure = measureOf(state.get('lot', lot));
  const left = leftOf(state.get('lot', lot)?.[unit] ?? null, movementsOf(state, lot, at, { oneOfSeveral: 'left-out' }), unit);
  const accepted = acceptedHere(state, lot, beside.id, at);
  const open = left !== null && left >= 0 ? Math.max(0, left - (accepted ?? 0)) : null;
  return {
    decided: together([...away, ...kept]),
    left: open === null ? null : { pieces: unit === 'pieces' ? open : null, mg: unit === 'mg' ? open : null },
    atMost: accepted === null || kept.some((d) => !letsUse(d.decision)),
  };
}

/** One amount for all that was decided alike, under whatever it was. What was counted and what was weighed stay apart. */
function together(decided: DecidedPart['decided']): DecidedPart['decided'] {
  const alike = grouped(decided, (d) => `${d.decision} ${d.pieces === null ? 'mg' : 'pieces'}`);
  const sumOf = (of: readonly (number | null)[]): number | null =>
    of.reduce((sum, amount) => (sum === null || amount === null ? null : sum + amount));
  return [...alike.values()].flatMap((all) =>
    all.slice(0, 1).map(({ decision }) => ({ decision, pieces: sumOf(all.map((d) => d.pieces)), mg: sumOf(all.map((d) => d.mg)) })),
  );
}
