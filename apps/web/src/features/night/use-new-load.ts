import { makeView, type RunView } from '@bakehouse/views';
import { useState } from 'react';
import { useLocation } from 'wouter';
import { useAct } from '../../shared/use-act';
import { leftToLoad, settingFor, spotsOf } from './load-form';
import { paths } from '../../shared/night/paths';
import { useNight } from '../../shared/night/use-night';
import { nowUsed, usedLast } from '../../shared/used-last';
import type { WhenAndWho } from '../../shared/night/when-who';

const deckOf = ({ product }: RunView): string => `deck, ${product}`;

/** What is being put into an oven: where, what of each product, how hot and how long; planned figures stand there until others are typed. */
export function useNewLoad() {
  const { view, lookup, state, day } = useNight();
  const [, go] = useLocation();
  const spots = spotsOf(state.snapshot);
  const inNow = view.loads.filter((l) => l.now.in).map((l) => state.rows.get('load', l.id));
  const busySpots = new Set(inNow.map((row) => row?.deck ?? row?.oven));
  const [said, setSpot] = useState<string>();
  const [pieces, setPieces] = useState<ReadonlyMap<string, string>>(new Map());
  const [typed, setTyped] = useState<Partial<Record<'celsius' | 'minutes', string>>>({});
  const [whenWho, setWhenWho] = useState<WhenAndWho>({});
  const { act, busy, trouble } = useAct();
  // What was made for another day and is not loaded yet, out of the freezer say, can be loaded today.
  const earlier = state.snapshot.make.filter((m) => m.bakeDay !== day).map((m) => makeView(lookup, m));
  const makes = [...view.makes, ...earlier.filter((m) => m.runs.some((r) => leftToLoad(r) > 0 && r.batches.length === 0))];
  const runs = makes.flatMap((m) => m.runs.map((run) => ({ run, version: m.formulaVersion, make: m })));
  const open = runs.filter(({ run }) => leftToLoad(run) > 0 || pieces.has(run.id));
  const [first] = [...pieces.keys()];
  const of = runs.find(({ run }) => run.id === first);
  // Where this product went last time, if that is empty; else the first that is.
  const before = spots.find((s) => of !== undefined && s.id === usedLast(deckOf(of.run)) && !busySpots.has(s.id));
  const spot = said ?? (before ?? spots.find((s) => !busySpots.has(s.id)) ?? spots[0])?.id ?? '';
  const at = spots.find((s) => s.id === spot);
  const ovenName = at ? (state.rows.get('place', at.oven)?.name ?? '') : '';
  const planned = of && settingFor(state.rows.get('formulaVersion', of.version), of.run.product, ovenName);
  const figures = { celsius: typed.celsius ?? String(planned?.celsius ?? ''), minutes: typed.minutes ?? String(planned?.minutes ?? '') };
  const lines = [...pieces].map(([run, n]) => ({ run, pieces: Number(n) })).filter((l) => l.pieces > 0);
  const save = async (): Promise<void> => {
    if (!at) return;
    const plan = state.rows.get('make', makes.find((m) => m.runs.some((r) => r.id === first))?.id ?? '')?.plan ?? null;
    const done = await act({
      kind: 'load-in',
      ...whenWho,
      payload: {
        oven: at.oven,
        deck: at.deck,
        plan,
        bakeDay: day,
        setting: figures.celsius === '' ? null : { figure: figures.celsius, unit: 'degC' },
        minutes: Number(figures.minutes) > 0 ? Number(figures.minutes) : null,
        lines,
      },
    });
    if (!done) return;
    if (of) nowUsed(deckOf(of.run), at.id);
    go(paths.load(done.id));
  };
  const toggle = (run: RunView): void => {
    const next = new Map(pieces);
    if (next.has(run.id)) next.delete(run.id);
    else next.set(run.id, String(leftToLoad(run)));
    setPieces(next);
  };
  const takeAll = (): void => setPieces(new Map(open.map(({ run }) => [run.id, pieces.get(run.id) ?? String(leftToLoad(run))])));
  const setPiecesOf = (run: string, n: string): void => setPieces(new Map(pieces).set(run, n));
  const setFigure = (what: 'celsius' | 'minutes', figure: string): void => setTyped({ ...typed, [what]: figure });
  const where = spots.map((s) => ({ value: s.id, text: busySpots.has(s.id) ? `${s.name}, in use` : s.name }));
  const canSave = !busy && lines.length > 0 && at !== undefined;
  return {
    ...{ where, spot, setSpot, runs, open, pieces, lines, figures, setPiecesOf, setFigure, toggle, takeAll },
    ...{ whenWho, setWhenWho, save, canSave, trouble },
  };
}
