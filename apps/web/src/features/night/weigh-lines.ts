import { grouped, sumOfKnown } from '@bakehouse/kernel';
import { neededOf, type PayloadFor, type ProposedLine, type Row } from '@bakehouse/records';
import { saidOf, tooLittleFor, type MakeView } from '@bakehouse/views';
import { inGrams } from '../../shared/format';
import { closedSince, linesFor, openFor } from '../../shared/night/lots';
import type { Night } from '../../shared/night/use-night';
import type { Amount } from './amount-sheet';

export interface Line extends Amount {
  readonly key: string;
  readonly material: string;
  readonly name: string;
  readonly lot: string | null;
  /** Other lots of it that were open, where nobody knows which of them went in. */
  readonly orLots: readonly string[];
  /** How many lots of it were open. */
  readonly open: number;
  /** It ran out, or was put back in the store, after the mix was begun. */
  readonly closed: boolean;
  /** What speaks against its lots: it does not go in before somebody says so. Empty where nothing does. */
  readonly stops: readonly Stop[];
  /** Whether it goes in: nothing speaks against it, or somebody said that it is used all the same. */
  readonly goes: boolean;
  /** Those of its lots of whose code and material another lot is on hold: said, and it goes in all the same. */
  readonly alike: readonly string[];
  /** Another lot that is open gives all of it; this one nothing, while nobody says that it is used. */
  readonly leftOut: boolean;
  /** Its amount or that of another lot of it is not known, and nobody said that they do not know: none of them goes in before. */
  readonly asked: boolean;
  /** The other lots that are open gave all that the formula asks for: nothing of this one goes in, while nobody says how much. */
  readonly none: boolean;
  /** What there is of its lots by the records, where that is less than it takes and nobody said that it is so all the same: the rest came from another lot, or a count is wrong. */
  readonly shortOf: number | null;
  /** How far what goes in of the material is from the formula, in percent of it, where that is more than a hand's error. */
  readonly farPercent: number | null;
}

export interface Stop {
  readonly lot: string;
  readonly said: LotSaid | null;
  /** Open for longer than its specification allows. */
  readonly openTooLong: boolean;
}
type LotSaid = NonNullable<ReturnType<typeof saidOf>>;

export interface Weighing {
  readonly make: Row<'make'>;
  readonly seen: MakeView;
  readonly version: Row<'formulaVersion'>;
  readonly changed: ReadonlyMap<string, Amount>;
  /** Materials of which nobody knows which open lot went in. */
  readonly unsure: ReadonlySet<string>;
  /** Lots that are used although something speaks against them. */
  readonly evenSo: ReadonlySet<string>;
  /** Lines that take more than is left by the records, and somebody said that it is so. */
  readonly evenShort: ReadonlySet<string>;
}

/** More than this is no rounding of a scale or an adjustment by feel. Common practice, no source. */
const farPpm = 100_000;

/** What the formula asks for and is not in yet, from the lots that are open; an amount that was typed stands for the proposed one. */
export function linesToWeigh(night: Night, weighing: Weighing): Line[] {
  const { make, seen, version, changed, evenSo } = weighing;
  const { lookup, state, now } = night;
  const putBack = new Set(version.content.rework?.sources.map((s) => s.material));
  const weighed = new Set(
    seen.lines
      .flatMap((l) => ({ type: l.type, material: state.rows.get('lot', l.lot)?.material ?? '' }))
      .filter((l) => l.type === 'ingredient' || (l.type === 'rework' && putBack.has(l.material)))
      .map((l) => l.material),
  );
  const stopOf = stopsOf(night);
  const stands = (lot: string): boolean => stopOf(lot) === undefined || evenSo.has(lot);
  const open = new Map(
    [...grouped(openFor(lookup, make.station, make.at, now), (o) => o.material)].map(([m, o]) => [
      m,
      [...new Set(o.map(({ lot }) => lot))],
    ]),
  );
  const without = new Map([...open].map(([m, lots]) => [m, lots.some(stands) ? lots.filter((lot) => !stands(lot)) : []]));
  const of = { version, plannedMg: make.plannedMg, station: make.station, from: make.at, to: now };
  const said = (material: string, lot: string): number | null | undefined => {
    const amount = changed.get(keyOf(material, [lot]));
    return amount && mgOf(amount);
  };
  const proposed = linesFor(lookup, of, new Set([...without.values()].flat()), said).filter((l) => !weighed.has(l.material));
  const needed = new Map(neededOf(version.content.lines, make.plannedMg).map((l) => [l.material, l.mg]));
  const closed = closedSince(lookup, openFor(lookup, make.station, make.at, now), now);
  const lineOf = lineMaker(night, weighing, { stopOf, closed });
  return [...grouped(proposed, (l) => l.material)].flatMap(([material, each]) => {
    const out = without.get(material) ?? [];
    const lots = (open.get(material) ?? []).filter((lot) => !out.includes(lot));
    const none = lots.filter((lot) => !each.some((l) => l.lot === lot)).map((lot): Offered => ({ material, lot, mg: 0, how: 'estimated' }));
    const mg = needed.get(material) ?? null;
    const offered = weighing.unsure.has(material) && lots.length > 1 ? [anyOf(material, mg, lots)] : inOrderOf(lots, [...each, ...none]);
    const lines = offered.map((l) => lineOf(l, { open: lots.length, leftOut: false }));
    const asked = lines.some((l) => l.grams === null && !changed.has(l.key) && l.lot !== null);
    const farPercent = asked ? null : farOf(sumOfKnown(lines.map(mgOf)), mg);
    return [
      ...lines.map((l) => ({ ...l, asked, farPercent, goes: l.goes && !asked && !l.none && l.shortOf === null })),
      ...out.map((lot) => lineOf({ material, lot, mg: null, how: 'by-recipe' }, { open: lots.length, leftOut: true })),
    ];
  });
}

const keyOf = (material: string, lots: readonly string[]): string => `${material} ${lots.join(' ')}`;
const mgOf = ({ grams }: Amount): number | null => (grams === null ? null : Math.round(Number(grams) * 1000));
const inOrderOf = (lots: readonly string[], lines: readonly Offered[]): Offered[] =>
  [...lines].sort((a, b) => lots.indexOf(a.lot ?? '') - lots.indexOf(b.lot ?? ''));

/** How far an amount is from what the formula asks for, in whole percent of that; null where it is near, or nobody knows. */
function farOf(mg: number | null, needed: number | null): number | null {
  if (mg === null || needed === null || needed === 0) return null;
  const off = mg - needed;
  return Math.abs(off) * 1_000_000 <= needed * farPpm ? null : Math.round((off * 100) / needed);
}

interface AboutLots {
  readonly stopOf: (lot: string) => Stop | undefined;
  readonly closed: ReadonlySet<string>;
}

function lineMaker(night: Night, { version, changed, evenSo, evenShort }: Weighing, { stopOf, closed }: AboutLots) {
  const names = new Map(version.content.lines.map((l) => [l.material, l.name]));
  const alikeHeld = new Set(night.view.inUse.filter((u) => u.alikeHeld.length > 0).map((u) => u.lot));
  return (l: Offered, { open, leftOut }: { readonly open: number; readonly leftOut: boolean }): Line => {
    const all = l.lot === null ? [] : [l.lot, ...(l.orLots ?? [])];
    const key = keyOf(l.material, all);
    const amount = changed.get(key) ?? { grams: l.mg === null ? null : inGrams(l.mg), how: l.how };
    const stops = all.flatMap((lot) => stopOf(lot) ?? []);
    const goes = !leftOut && stops.every((s) => evenSo.has(s.lot));
    const alike = all.filter((lot) => alikeHeld.has(lot));
    const none = mgOf(amount) === 0;
    const own = { key, material: l.material, name: names.get(l.material) ?? '', lot: l.lot, orLots: l.orLots ?? [], open, stops, alike };
    const shortOf = evenShort.has(key) ? null : tooLittleFor(night.lookup, all, mgOf(amount));
    return { ...own, shortOf, closed: l.lot !== null && closed.has(l.lot), goes, leftOut, none, asked: false, farPercent: null, ...amount };
  };
}

/** What speaks against a lot that is open, if something does. */
function stopsOf({ lookup, view }: Night): (lot: string) => Stop | undefined {
  const tooLong = new Set(view.inUse.filter((u) => u.openTooLong).map((u) => u.lot));
  return (lot) => {
    const stop = { lot, said: saidOf(lookup, lot), openTooLong: tooLong.has(lot) };
    return stop.said === null && !stop.openTooLong ? undefined : stop;
  };
}

type Offered = ProposedLine & { readonly orLots?: readonly string[] };

/** One amount of any of these lots it was: what the formula asks for. */
function anyOf(material: string, mg: number | null, [first, ...orLots]: readonly string[]): Offered {
  return { material, mg, lot: first ?? null, orLots, how: 'by-recipe' };
}

/** What the formula names as rework is recorded as that. */
export const asPayload = (l: Line, { content }: Row<'formulaVersion'>): PayloadFor<'weighed-in'>['lines'][number] => ({
  material: l.material,
  lot: l.lot,
  ...(l.orLots.length === 0 ? {} : { orLots: [...l.orLots] }),
  quantity: l.grams === null ? null : { figure: l.grams, unit: 'g' },
  how: l.how,
  type: content.rework?.sources.some((s) => s.material === l.material) ? 'rework' : 'ingredient',
});
