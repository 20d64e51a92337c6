import { grouped, sumOfKnown } from '@bakehouse/kernel';
import type { PayloadFor, ProposedLine, Row } from '@bakehouse/records';
import { saidOf, type MakeView } from '@bakehouse/views';
import { inGrams } from '../../shared/format';
import { linesFor, openFor } from '../../shared/night/lots';
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
  /** What speaks against its lots: it does not go in before somebody says so. Empty where nothing does. */
  readonly stops: readonly Stop[];
  /** Whether it goes in: nothing speaks against it, or somebody said that it is used all the same. */
  readonly goes: boolean;
  /** Those of its lots of whose code and material another lot is on hold: said, and it goes in all the same. */
  readonly alike: readonly string[];
  /** Another lot that is open gives all of it; this one nothing, while nobody says that it is used. */
  readonly leftOut: boolean;
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
}

/** What the formula asks for and is not in yet, from the lots that are open; an amount that was typed stands for the proposed one. */
export function linesToWeigh(night: Night, { make, seen, version, changed, unsure, evenSo }: Weighing): Line[] {
  const { lookup, state, now } = night;
  const weighed = new Set(seen.lines.filter((l) => l.type === 'ingredient').flatMap((l) => state.rows.get('lot', l.lot)?.material ?? []));
  const names = new Map(version.content.lines.map((l) => [l.material, l.name]));
  const stopOf = stopsOf(night);
  const alikeHeld = new Set(night.view.inUse.filter((u) => u.alikeHeld.length > 0).map((u) => u.lot));
  const stands = (lot: string): boolean => stopOf(lot) === undefined || evenSo.has(lot);
  const open = new Map(
    [...grouped(openFor(lookup, make.station, make.at, now), (o) => o.material)].map(([m, o]) => [
      m,
      [...new Set(o.map(({ lot }) => lot))],
    ]),
  );
  const without = new Map([...open].map(([m, lots]) => [m, lots.some(stands) ? lots.filter((lot) => !stands(lot)) : []]));
  const of = { version, plannedMg: make.plannedMg, station: make.station, from: make.at, to: now };
  const proposed = linesFor(lookup, of, new Set([...without.values()].flat())).filter((l) => !weighed.has(l.material));
  return [...grouped(proposed, (l) => l.material)].flatMap(([material, each]) => {
    const name = names.get(material) ?? '';
    const out = without.get(material) ?? [];
    const lots = (open.get(material) ?? []).filter((lot) => !out.includes(lot));
    const lineOf = (l: Offered, leftOut: boolean): Line => {
      const all = l.lot === null ? [] : [l.lot, ...(l.orLots ?? [])];
      const key = `${material} ${all.join(' ')}`;
      const amount = changed.get(key) ?? { grams: l.mg === null ? null : inGrams(l.mg), how: l.how };
      const own = {
        lot: l.lot,
        orLots: l.orLots ?? [],
        open: lots.length,
        stops: all.flatMap((lot) => stopOf(lot) ?? []),
        alike: all.filter((lot) => alikeHeld.has(lot)),
      };
      return { key, material, name, ...own, goes: !leftOut && all.every(stands), leftOut, ...amount };
    };
    const [first] = each;
    const any = first && unsure.has(material) && lots.length > 1 ? [anyOf(first, sumOfKnown(each.map((l) => l.mg)), lots)] : each;
    return [...any.map((l) => lineOf(l, false)), ...out.map((lot) => lineOf({ material, lot, mg: null, how: 'by-recipe' }, true))];
  });
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

/** One amount of whichever of these lots it was: what the formula asks for, where it is known. */
const anyOf = (line: ProposedLine, mg: number | null, [lot = null, ...orLots]: readonly (string | null)[]): Offered => ({
  ...line,
  mg,
  lot,
  orLots: orLots.filter((one) => one !== null),
  how: mg === null ? line.how : ('by-recipe' as const),
});

export const asPayload = (l: Line): PayloadFor<'weighed-in'>['lines'][number] => ({
  material: l.material,
  lot: l.lot,
  ...(l.orLots.length === 0 ? {} : { orLots: [...l.orLots] }),
  quantity: l.grams === null ? null : { figure: l.grams, unit: 'g' },
  how: l.how,
  type: 'ingredient',
});
