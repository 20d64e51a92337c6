import { type RunView } from '@bakehouse/domain';
import { useState } from 'react';
import { useLocation } from 'wouter';
import { whole } from '../../shared/format';
import { Button, Choice, Empty, NumberPad, Screen, Section, Sheet } from '../../shared/ui';
import { leftToLoad, settingFor, spotsOf } from './load-form';
import { paths } from './paths';
import { useAct } from '../../shared/use-act';
import { useNight } from './use-night';
import { WhenWho, type Told } from './when-who';

type Figure = { readonly what: 'celsius' | 'minutes' } | { readonly run: string };

/** What goes in together, where, how hot and how long. Tapping a product takes all that is left of it. */
export function LoadNew() {
  const { view, state, day } = useNight();
  const [, go] = useLocation();
  const spots = spotsOf(state.snapshot);
  const busySpots = new Set(
    view.loads
      .filter((l) => l.now.in)
      .flatMap((l) => {
        const row = state.rows.get('load', l.id);
        return row ? [row.deck ?? row.oven] : [];
      }),
  );
  const [spot, setSpot] = useState<string>(() => spots.find((s) => !busySpots.has(s.id))?.id ?? spots[0]?.id ?? '');
  const [pieces, setPieces] = useState<ReadonlyMap<string, string>>(new Map());
  const [typed, setTyped] = useState<Partial<Record<'celsius' | 'minutes', string>>>({});
  const [asking, setAsking] = useState<Figure>();
  const [told, setTold] = useState<Told>({});
  const { act, busy, trouble } = useAct();
  const runs = view.makes.flatMap((m) => m.runs.map((run) => ({ run, version: m.formulaVersion })));
  const open = runs.filter(({ run }) => leftToLoad(run) > 0 || pieces.has(run.id));
  const at = spots.find((s) => s.id === spot);
  const [first] = [...pieces.keys()];
  const planned = (() => {
    const of = runs.find(({ run }) => run.id === first);
    const ovenName = at ? (state.rows.get('place', at.oven)?.name ?? '') : '';
    return of ? settingFor(state.rows.get('formulaVersion', of.version), of.run.product, ovenName) : undefined;
  })();
  const figures = { celsius: typed.celsius ?? String(planned?.celsius ?? ''), minutes: typed.minutes ?? String(planned?.minutes ?? '') };
  const lines = [...pieces].map(([run, n]) => ({ run, pieces: Number(n) })).filter((l) => l.pieces > 0);
  const save = async (): Promise<void> => {
    if (!at) return;
    const plan = state.rows.get('make', view.makes.find((m) => m.runs.some((r) => r.id === first))?.id ?? '')?.plan ?? null;
    const done = await act({
      kind: 'load-in',
      ...told,
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
    if (done?.ok) go(paths.load(done.id));
  };
  const toggle = (run: RunView): void => {
    const next = new Map(pieces);
    if (next.has(run.id)) next.delete(run.id);
    else next.set(run.id, String(leftToLoad(run)));
    setPieces(next);
  };
  return (
    <Screen
      title="Into the oven"
      back={{ to: paths.today, text: 'Today’s bake' }}
      actions={
        <Button look="go" disabled={busy || lines.length === 0 || !at} onClick={() => void save()}>
          In it goes
        </Button>
      }
    >
      {trouble}
      {spots.length === 0 ? (
        <Empty>No oven is in use here yet; one is set up in the office.</Empty>
      ) : (
        <Choice
          label="Where"
          value={spot}
          onChange={setSpot}
          options={spots.map((s) => ({ value: s.id, text: busySpots.has(s.id) ? `${s.name}, in use` : s.name }))}
        />
      )}
      <Section title="What">
        {open.length === 0 ? (
          <Empty>Nothing is made up and waiting. “Make up” on a dough says what there is.</Empty>
        ) : (
          <div className="figure-keys">
            {open.map(({ run }) => (
              <button key={run.id} type="button" className="figure-key" aria-pressed={pieces.has(run.id)} onClick={() => toggle(run)}>
                <b>{run.name}</b>
                <span>{whole(leftToLoad(run))} waiting</span>
              </button>
            ))}
          </div>
        )}
        {lines.map((l) => (
          <Button
            key={l.run}
            onClick={() => setAsking({ run: l.run })}
          >{`${runs.find(({ run }) => run.id === l.run)?.run.name ?? ''}: ${whole(l.pieces)} pieces`}</Button>
        ))}
      </Section>
      <div className="figure-keys">
        <button type="button" className="figure-key" onClick={() => setAsking({ what: 'celsius' })}>
          <span>Oven</span>
          <b>{figures.celsius === '' ? '–' : `${figures.celsius} °C`}</b>
        </button>
        <button type="button" className="figure-key" onClick={() => setAsking({ what: 'minutes' })}>
          <span>For</span>
          <b>{figures.minutes === '' ? '–' : `${figures.minutes} min`}</b>
        </button>
      </div>
      <WhenWho value={told} onChange={setTold} />

      {asking ? (
        <FigureSheet
          asking={asking}
          value={'run' in asking ? (pieces.get(asking.run) ?? '') : figures[asking.what]}
          onClose={() => setAsking(undefined)}
          onChange={(v) => {
            if ('run' in asking) setPieces(new Map(pieces).set(asking.run, v));
            else setTyped({ ...typed, [asking.what]: v });
          }}
        />
      ) : null}
    </Screen>
  );
}

const asks = { celsius: { title: 'Oven', label: 'Set to', unit: '°C' }, minutes: { title: 'Minutes', label: 'For', unit: 'min' } } as const;
interface SheetProps {
  readonly asking: Figure;
  readonly value: string;
  readonly onChange: (value: string) => void;
  readonly onClose: () => void;
}

function FigureSheet({ asking, value, onChange, onClose }: SheetProps) {
  const { title, label, unit } = 'run' in asking ? { title: 'Pieces in this load', label: 'Pieces', unit: '' } : asks[asking.what];
  return (
    <Sheet title={title} onClose={onClose}>
      <NumberPad label={label} unit={unit} decimals={false} value={value} onEnter={onClose} onChange={onChange} />
      <div className="buttons">
        <Button look="go" onClick={onClose}>
          Done
        </Button>
      </div>
    </Sheet>
  );
}
