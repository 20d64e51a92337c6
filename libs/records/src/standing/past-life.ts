import type { Need, Row, State } from '../base/state.js';
import type { Life } from '../rows/plan-content.js';
import { flowsInto } from './later-content.js';
import {
  everHolds,
  lifeNeeds,
  lifeOfMade,
  lifeOfOpened,
  lifeRules,
  livesOpened,
  openedNeeds,
  planHolds,
  plansHold,
  type EndOfLife,
} from './life.js';
import { behind, sourceNeeds } from './use-by.js';

/** A lot that was past its life at an instant, and on hold by the plan in force then or by one that was since the life ended. */
export interface PastLife extends Pick<EndOfLife, 'life' | 'hours' | 'ends'> {
  readonly lot: string;
  readonly name: string;
  /** Not where it may have been of what was opened elsewhere. */
  readonly certain: boolean;
  /** The plan in force at that instant says so; otherwise only an earlier one did, and a decision since then ends it. */
  readonly byPlanThen: boolean;
}

/** What has to be looked for, as far as can be named now, before a lot can be asked for what is past its life. Where no plan ever held it, that alone. */
export const pastLifeNeeds = (state: State, lot: string): Need[] => [
  lifeRules,
  ...(everHolds(state, 'madeHere') ? lifeNeeds(state, lot) : []),
  ...(everHolds(state, 'opened') ? [...openedNeeds(state, lot), { in: 'make', id: lot } satisfies Need] : []),
];

interface When {
  readonly at: string;
  /** Where it was used, if that is known. */
  readonly station: string | null;
}

/** What a lot is, or was named as, and what was made here and is in the vessel that it is the content of; with when that went in there. */
function asWell(
  state: State,
  lot: string,
  at: string | null,
): { readonly lot: string; readonly went: string; readonly inVessel: boolean }[] {
  const found = new Map([[lot, { lot, went: '', inVessel: false }]]);
  for (const one of found.values())
    for (const next of behind(state, one.lot, at)) {
      const went = next.at > one.went ? next.at : one.went;
      const known = found.get(next.lot);
      if (known && known.went <= went) continue;
      found.delete(next.lot);
      found.set(next.lot, { lot: next.lot, went, inVessel: one.inVessel || next.at !== '' });
    }
  return [...found.values()];
}

type Over = EndOfLife & Pick<PastLife, 'certain' | 'byPlanThen'>;

/** Those of these lives that were over by an instant and hold, the first to end first; certain where all of them were over. */
function overBy(state: State, lives: readonly EndOfLife[], at: string): Over[] {
  const over = lives.filter((one) => one.ends < at && plansHold(state, one, at)).sort((a, b) => (a.ends < b.ends ? -1 : 1));
  return over.map((one) => ({ ...one, certain: over.length === lives.length, byPlanThen: planHolds(state, one, at) }));
}

const livesOf = (state: State, lot: string, life: Life, { at, station }: When): EndOfLife[] => {
  if (!everHolds(state, life)) return [];
  if (life === 'opened') return openedNeeds(state, lot).every((need) => state.knows(need)) ? livesOpened(state, lot, at, station) : [];
  const made = lifeNeeds(state, lot).every((need) => state.knows(need)) ? lifeOfMade(state, lot) : null;
  return made === null ? [] : [made];
};

/**
 * What of a lot was past its life at an instant, where the plan in force then holds it or an earlier one since its end did: itself, what it turned out to be, and in a vessel what was made here and
 * went in there in time. What went in when it was past is in there as such, and travels with the content. A vessel is a station of its own: what its content was
 * once opened is looked at no further. `known`: as known at an instant, or now. Needs `pastLifeNeeds` of all that it comes from.
 */
export function pastLifeAt(state: State, lot: string, when: When, known: string | null = null): PastLife[] {
  if (!everHolds(state, 'madeHere') && !everHolds(state, 'opened')) return [];
  return asWell(state, lot, known).flatMap((one) =>
    (['madeHere', 'opened'] as const).flatMap((life): PastLife[] => {
      if (life === 'opened' && one.inVessel) return [];
      const over = overBy(state, livesOf(state, one.lot, life, when), when.at).filter(({ ends }) => ends >= one.went);
      const name = state.knows({ in: 'lot', id: one.lot }) ? (state.get('lot', one.lot)?.name ?? '') : '';
      return over.map(({ hours, ends, certain, byPlanThen }) => ({ lot: one.lot, name, life, hours, ends, certain, byPlanThen }));
    }),
  );
}

/** Something past its life that went into a lot. */
export interface UsedPastLife {
  readonly past: PastLife;
  /** When that was first. */
  readonly usedAt: string;
  readonly certain: boolean;
}

/** A use of something past its life, by the name of the lot that was taken. */
export interface PastUse {
  readonly source: string;
  readonly past: PastLife;
  readonly at: string;
}

/**
 * What went into a lot past its life, each once, with when that was first. In order of what happened, whatever was recorded when. `counts`: whether that use does.
 * Needs `standingNeeds`.
 */
export function usedPastLife(
  state: State,
  lot: string,
  known: string | null = null,
  counts: (use: PastUse) => boolean = () => true,
): UsedPastLife[] {
  if (!state.knows({ in: 'flow', by: 'target', value: lot })) return [];
  const station = state.knows({ in: 'make', id: lot }) ? (state.get('make', lot)?.station ?? null) : null;
  const found = new Map<string, UsedPastLife>();
  for (const f of flowsInto(state, lot).filter((f) => f.source !== lot && (known === null || f.at <= known)))
    for (const past of pastLifeAt(state, f.source, { at: f.at, station }, known)) {
      if (!counts({ source: f.source, past, at: f.at })) continue;
      const other = found.get(pastLifeId(past));
      const certain = (f.certain && past.certain) || (other?.certain ?? false);
      found.set(pastLifeId(past), other && other.usedAt < f.at ? { ...other, certain } : { past, usedAt: f.at, certain });
    }
  return [...found.values()];
}

/** Where `usedPastLife` finds what it says of a lot. Everything that `standingNeeds` of it names is there. */
export const usedPastLifeNeeds = (state: State, lot: string): Need[] =>
  usedPastLife(state, lot).length === 0 ? [] : sourceNeeds(state, lot, (one) => pastLifeNeeds(state, one));

/** Whether a life of something else counts for a lot, so that nobody may stop looking there. */
export const livesAsAnother = (state: State, lot: string): boolean =>
  (everHolds(state, 'madeHere') || everHolds(state, 'opened')) && behind(state, lot, null).length > 0;

type Named = Pick<PastLife, 'lot' | 'life' | 'ends'>;
const nameOf = { madeHere: 'made', opened: 'opened' } as const satisfies Record<Life, string>;
/** A lot may be opened again: by when that life ended, a decision about one opening says nothing of another. */
const whichOf = ({ life, lot, ends }: Named): string => `${nameOf[life]} ${lot}${life === 'opened' ? ` ${ends}` : ''}`;

/** The concern that a lot which is here is past its life, and the one that it was used then: one each, wherever that was. */
export const pastLifeId = (of: Named): string => `past-life ${whichOf(of)}`;
export const usedPastLifeId = (of: Named): string => `used-past-life ${whichOf(of)}`;
/** What all concerns about uses of a lot past one of its lives have in common, whichever opening each is about. */
export const usedPastLives = (lot: string): string[] => Object.values(nameOf).map((name) => `used-past-life ${name} ${lot}`);
export const withoutOpening = (concern: string): string => /^(used-past-life opened \S+) /.exec(concern)?.[1] ?? concern;
/** The lot that such a concern is about, where it is about the life of what was made here. */
export const madePastLife = (concern: string): string | null => /^(?:used-)?past-life made (.+)$/.exec(concern)?.[1] ?? null;

export const pastLifeText = ({ name, life, hours }: PastLife): string =>
  `${name}, keeps ${hours} h after it was ${life === 'opened' ? 'opened' : 'made'}`;

type AboutPastLife = Pick<Row<'deviation'>, 'type' | 'lot' | 'subject' | 'at'>;

/**
 * The concerns about food past its life that a deviation tells of: that something was used then; or, about a lot that was past its life when it was reported or
 * when it left, that it is here, and whatever it was used in.
 */
export function pastLifeIds(state: State, { type, lot, subject, at }: AboutPastLife, known: string | null = null): string[] {
  if (!state.knows(lifeRules)) return [];
  if (type === 'past-life-used' && lot !== null)
    return asWell(state, lot, known).flatMap((one) => [
      usedPastLifeId({ lot: one.lot, life: 'madeHere', ends: at }),
      ...openingsOver(state, one.lot, at).map((over) => usedPastLifeId({ lot: one.lot, ...over })),
    ]);
  if (type !== 'past-life-used' && type !== 'deviation-reported') return [];
  return pastLifeAt(state, subject, { at, station: null }, known).flatMap((past) => [pastLifeId(past), usedPastLifeId(past)]);
}

/** The openings of a lot whose life was over by an instant, wherever that was. */
const openingsOver = (state: State, lot: string, at: string): EndOfLife[] =>
  openedNeeds(state, lot).every((need) => state.knows(need))
    ? state
        .find('inUse', 'lot', lot)
        .flatMap((u) => lifeOfOpened(state, u) ?? [])
        .filter(({ ends }) => ends < at)
    : [];

/** What has to be looked for, as far as can be named now, before `pastLifeIds` can be asked of a deviation beside `keepsNeeds` of its lot and its subject. */
export const pastLifeIdNeeds = (state: State, { lot, subject }: Pick<AboutPastLife, 'lot' | 'subject'>): Need[] =>
  [subject, ...(lot === null ? [] : [lot])].flatMap((one) => [
    ...pastLifeNeeds(state, one),
    ...behind(state, one, null).flatMap((next) => pastLifeNeeds(state, next.lot)),
  ]);
