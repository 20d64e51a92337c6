import { grouped, isEnded } from '@bakehouse/kernel';
import type { Row } from '../base/state.js';

/** What holds from an instant on, until another takes its place. */
interface Since {
  readonly since: string;
  /** Of one and the same series the later version has the higher number. */
  readonly number?: number;
}
type Plan = Since & Pick<Row<'planVersion'>, 'site'>;
type Formula = Pick<Row<'formulaVersion'>, 'formula' | 'number' | 'since'>;
type Specification = Since & Pick<Row<'specification'>, 'material' | 'supplier'>;

const numberOf = ({ number = 0 }: Since): number => number;
/** In the order in which they began; of those of one instant and number, the later in the list comes after. */
const inTurn = (a: Since, b: Since): number => (a.since === b.since ? numberOf(a) - numberOf(b) : a.since < b.since ? -1 : 1);

/** What had begun to hold by an instant, in the order in which it did: the last is in force. */
export const begunBy = <V extends Since>(versions: readonly V[], at: string): V[] => versions.filter((v) => v.since <= at).sort(inTurn);

/** The first that ever held. */
export const firstOf = <V extends Since>(versions: readonly V[]): V | undefined => [...versions].sort(inTurn)[0];

/** The last that had begun to hold by an instant. */
export const inForce = <V extends Since>(versions: readonly V[], at: string): V | undefined => begunBy(versions, at).at(-1);

/** The plans that are for a site: its own, and those for all sites. */
export const plansFor = <V extends Plan>(plans: readonly V[], site: string): V[] => plans.filter((p) => p.site === null || p.site === site);

/** The plan that is in force at a site: the last that was approved for it or for all sites. */
export const planInForce = <V extends Plan>(plans: readonly V[], site: string, at: string): V | undefined =>
  inForce(plansFor(plans, site), at);

/** A plan with when the next took its place; null where none did. */
export interface Reign<V> {
  readonly plan: V;
  readonly until: string | null;
}
/** The plans of a site in the order in which they were in force. */
export function plansInTurn<V extends Plan>(ofSite: readonly V[]): Reign<V>[] {
  const all = [...ofSite].sort(inTurn);
  return all.map((plan, i) => ({ plan, until: all[i + 1]?.since ?? null }));
}
/** Whether a plan was in force at any time of a period; one that another replaced at the same instant never was. */
export const wasInForce = ({ plan, until }: Reign<Plan>, period: { readonly begins: string; readonly ends: string }): boolean =>
  plan.since < period.ends && (until === null || (until > period.begins && until > plan.since));

/** The newest version of a formula at an instant, retired or not. */
export const formulaAt = <V extends Formula>(versions: readonly V[], formula: string, at: string): V | undefined =>
  begunBy(versions, at)
    .filter((v) => v.formula === formula)
    .sort((a, b) => a.number - b.number)
    .at(-1);

/** Since when a version is retired: the last end that no later version followed. */
export const retiredSince = (since: string, ends: readonly string[]): string | null =>
  ends.reduce<string | null>((last, end) => (end >= since && (last === null || end > last) ? end : last), null);

/** The newest version of every formula that is not retired. */
export function formulasInForce<V extends Formula>(
  versions: readonly V[],
  ends: readonly Pick<Row<'formulaRetired'>, 'formula' | 'at'>[],
  at: string,
): V[] {
  return [...grouped(versions, (v) => v.formula)].flatMap(([formula, some]) => {
    const newest = formulaAt(some, formula, at);
    const ended = ends.filter((e) => e.formula === formula).map((e) => e.at);
    return newest && !isEnded(ended, [newest.since], at) ? [newest] : [];
  });
}

/** Of each material the specifications in force at an instant, one of each supplier. */
export function specificationsInForce<V extends Specification>(
  all: readonly V[],
  at: string,
): ReadonlyMap<string, ReadonlyMap<string | null, V>> {
  const found = new Map<string, Map<string | null, V>>();
  for (const s of begunBy(all, at)) found.set(s.material, (found.get(s.material) ?? new Map<string | null, V>()).set(s.supplier, s));
  return found;
}
