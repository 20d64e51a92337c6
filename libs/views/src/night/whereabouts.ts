import type { BatchView } from './batches.js';
import type { LoadView } from './loads.js';
import type { MakeView, RunView } from './makes.js';
import type { NightView } from './night-view.js';

/** A deck, or an oven without any, and what is in it. Deck is null for what went in with no deck named. */
export interface Mouth {
  readonly place: string | null;
  readonly name: string;
  readonly loads: readonly LoadView[];
}
export interface OvenFront {
  readonly oven: string;
  readonly name: string;
  readonly mouths: readonly Mouth[];
}
/** Where everything of a bake is now: each thing in one place, the finished ones apart. */
export interface Whereabouts {
  /** Begun, and neither divided nor ended. */
  readonly table: readonly MakeView[];
  /** Made up, and some pieces neither in an oven yet nor counted out without one. */
  readonly proving: readonly RunView[];
  readonly ovens: readonly OvenFront[];
  /** Out of the oven, and not all counted out. */
  readonly toCount: readonly RunView[];
  /** Of which more went into an oven than were made up, wherever they are now. */
  readonly moreLoaded: readonly RunView[];
  /** Counted out, and not released; or released, and something was found since. */
  readonly waiting: readonly BatchView[];
  readonly released: readonly BatchView[];
  readonly done: readonly MakeView[];
}
export interface OvenPlace {
  readonly id: string;
  readonly name: string;
  readonly type: string;
  readonly within: string | null;
}

/** The house from the table to the door. Ovens in the order in which they were set up; each shows its decks, and what is in it beside them. */
export function whereaboutsOf(view: Pick<NightView, 'makes' | 'loads' | 'batches'>, places: readonly OvenPlace[]): Whereabouts {
  const runs = view.makes.flatMap((m) => m.runs);
  const baking = view.loads.filter((l) => l.now.in);
  const bakingOf = (run: string): number =>
    baking.flatMap((l) => l.lines).reduce((sum, line) => sum + (line.run === run ? line.pieces : 0), 0);
  const counted = (run: string): number => view.batches.reduce((sum, b) => sum + (b.run === run ? b.pieces + b.rejects : 0), 0);
  const live = (m: MakeView): boolean => m.divided === null && m.ended === null;
  const decided = ({ release }: BatchView): boolean =>
    release.state === 'destroyed' || (release.state === 'released' && release.since.length === 0);
  return {
    table: view.makes.filter(live),
    proving: runs.filter((r) => Math.max(r.loaded, counted(r.id)) < r.pieces),
    ovens: frontsOf(baking, places),
    toCount: runs.filter((r) => Math.min(r.pieces, r.loaded - bakingOf(r.id)) > counted(r.id)),
    moreLoaded: runs.filter((r) => r.moreLoaded > 0),
    waiting: view.batches.filter((b) => !decided(b)),
    released: view.batches.filter(decided),
    done: view.makes.filter((m) => !live(m)),
  };
}

function frontsOf(baking: readonly LoadView[], places: readonly OvenPlace[]): OvenFront[] {
  const ovens = places.filter((p) => p.type === 'oven');
  const known = new Set(ovens.map((o) => o.id));
  const elsewhere = baking.filter((l) => !known.has(l.oven)).map((l) => ({ id: l.oven, name: l.ovenName ?? 'oven' }));
  const all = [...new Map([...ovens, ...elsewhere].map(({ id, name }) => [id, name])).entries()];
  return all.map(([oven, name]) => {
    const inIt = baking.filter((l) => l.oven === oven);
    const decks = places.filter((p) => p.type === 'deck' && p.within === oven);
    const named = new Set(decks.map((d) => d.id));
    const mouths = decks.map((d): Mouth => ({ place: d.id, name: d.name, loads: inIt.filter((l) => l.deck === d.id) }));
    const loose = inIt.filter((l) => l.deck === null || !named.has(l.deck));
    return { oven, name, mouths: decks.length > 0 && loose.length === 0 ? mouths : [...mouths, { place: null, name, loads: loose }] };
  });
}
