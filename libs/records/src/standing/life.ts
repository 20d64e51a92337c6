import { hoursAfter, latest } from '@bakehouse/kernel';
import { planInForce, plansFor, plansInTurn, wasInForce } from '../control/in-force.js';
import type { Need, Row, State } from '../base/state.js';
import type { Life } from '../rows/plan-content.js';

/** What has to be looked for before `lifeEnds` can be asked of a lot: ask again until it names nothing new. */
export function lifeNeeds(state: State, lot: string): Need[] {
  const make = state.knows({ in: 'make', id: lot }) ? state.get('make', lot) : undefined;
  return [
    { in: 'make', id: lot },
    { in: 'makeEnded', by: 'make', value: lot },
    ...(make ? [{ in: 'formulaVersion', id: make.formulaVersion } satisfies Need] : []),
  ];
}

/** A life that comes to an end. It keeps up to and at that instant, and is past its life after it. */
export interface EndOfLife {
  readonly life: Life;
  readonly hours: number;
  readonly ends: string;
  /** Where it was made or opened. */
  readonly site: string;
}

/** The life of what was made here, by the formula that it was made by: from when it was ended, or else begun. Null where none says. Needs `lifeNeeds`. */
export function lifeOfMade(state: State, lot: string): EndOfLife | null {
  const make = state.get('make', lot);
  const hours = make ? (state.get('formulaVersion', make.formulaVersion)?.content.lifeHours ?? null) : null;
  if (!make || hours === null) return null;
  const from = latest(state.find('makeEnded', 'make', lot))?.at ?? make.at;
  return { life: 'madeHere', hours, ends: hoursAfter(from, hours), site: make.site };
}

/** Until when what was made here keeps. */
export const lifeEnds = (state: State, lot: string): string | null => lifeOfMade(state, lot)?.ends ?? null;

/** What has to be looked for, as far as can be named now, before `livesOpened` can be asked of a lot. */
export function openedNeeds(state: State, lot: string): Need[] {
  const opened: Need = { in: 'inUse', by: 'lot', value: lot };
  const specifications = state.knows(opened) ? state.find('inUse', 'lot', lot).flatMap((u) => u.specification ?? []) : [];
  return [
    opened,
    { in: 'emptied', by: 'lot', value: lot },
    ...[...new Set(specifications)].map((id): Need => ({ in: 'specification', id })),
  ];
}

type Opening = Pick<Row<'inUse'>, 'at' | 'site' | 'specification'>;

/** The life of what was opened, by its specification then; null where that says none. */
export function lifeOfOpened(state: State, { at, site, specification }: Opening): EndOfLife | null {
  const hours = specification === null ? null : (state.get('specification', specification)?.lifeOpenedHours ?? null);
  return hours === null ? null : { life: 'opened', hours, ends: hoursAfter(at, hours), site };
}

/**
 * The lives of what was open of a lot at an instant, by its specification once opened: at a station where it stood open, that alone; elsewhere that of each
 * station, as it may be of any. Another opening there of the same lot begins anew, and what was used up there is open no more. Needs `openedNeeds`.
 */
export function livesOpened(state: State, lot: string, at: string, station: string | null): EndOfLife[] {
  const stations = new Map<string, Row<'inUse'>>();
  for (const u of state.find('inUse', 'lot', lot))
    if (u.at <= at && u.at >= (stations.get(u.station)?.at ?? '')) stations.set(u.station, u);
  // A pack that was put away with some left in it is still open.
  const emptied = state.find('emptied', 'lot', lot).filter((e) => e.leftMg === null || e.leftMg === 0);
  const open = [...stations.values()].filter((u) => !emptied.some((e) => e.station === u.station && u.at <= e.at && e.at <= at));
  const there = open.filter((u) => u.station === station);
  return (there.length > 0 ? there : open).flatMap((u) => lifeOfOpened(state, u) ?? []);
}

/** Where it is found what every plan says of food past its life. */
export const lifeRules: Need = { in: 'planLife', by: 'rule', value: 'life' };
const rulesOf = (state: State): readonly Row<'planLife'>[] => (state.knows(lifeRules) ? state.find('planLife', 'rule', 'life') : []);

/** Whether any plan ever said that this life holds: where none did, nothing more is looked for. */
export const everHolds = (state: State, life: Life): boolean => rulesOf(state).some((rule) => rule[life] === 'hold');

/** Whether the plan that was in force there at an instant says that food past this life is on hold. Where none was, it is only warned of. */
export const planHolds = (state: State, { life, site }: Pick<EndOfLife, 'life' | 'site'>, at: string): boolean =>
  planInForce(rulesOf(state), site, at)?.[life] === 'hold';

/** Whether that plan says so, or one that was in force there since the life ended: what a plan put on hold is not taken off it by a milder one. */
export const plansHold = (state: State, { life, site, ends }: Pick<EndOfLife, 'life' | 'site' | 'ends'>, at: string): boolean =>
  planHolds(state, { life, site }, at) ||
  plansInTurn(plansFor(rulesOf(state), site)).some((reign) => reign.plan[life] === 'hold' && wasInForce(reign, { begins: ends, ends: at }));
