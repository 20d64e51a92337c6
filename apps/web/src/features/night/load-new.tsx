import { useState } from 'react';
import { wallTime, whole } from '../../shared/format';
import { Button, Choice, Empty, FigureKey, FigureSheet, Screen, Section } from '../../ui';
import { useAdditionsFirst } from './additions-asked';
import { leftToLoad } from './load-form';
import { LotTrouble } from './lot-cell';
import { useAllTheSame } from '../../shared/night/all-the-same';
import { paths } from '../../shared/night/paths';
import { useNight } from '../../shared/night/use-night';
import { useNewLoad } from './use-new-load';
import { WhenWho } from '../../shared/night/when-who';

type Figure = { readonly what: 'celsius' | 'minutes' } | { readonly run: string };

/** What goes in together, where, how hot and how long. Tapping a product takes all that is left of it. */
export function LoadNew() {
  const load = useNewLoad();
  const { unlessTroubled, asked } = useAllTheSame();
  const { unlessAsked, askedFirst } = useAdditionsFirst(load.whenWho, 'In it goes');
  const [asking, setAsking] = useState<Figure>();
  return (
    <Screen
      title="Into the oven"
      back={{ to: paths.today, text: 'Today’s bake' }}
      actions={
        <Button
          look="go"
          disabled={!load.canSave}
          onClick={() => {
            const runs = load.lines.map((l) => l.run);
            unlessTroubled(runs, () => unlessAsked(runs, () => void load.save()));
          }}
        >
          In it goes
        </Button>
      }
    >
      {load.trouble}
      {asked}
      {askedFirst}
      {load.where.length === 0 ? (
        <Empty>No oven is in use here yet; one is set up in the office.</Empty>
      ) : (
        <Choice label="Where" value={load.spot} onChange={load.setSpot} options={load.where} />
      )}
      <Products load={load} onAsk={setAsking} />
      <div className="figure-keys">
        <FigureKey
          name="Oven"
          figure={load.figures.celsius === '' ? '–' : `${load.figures.celsius} °C`}
          onClick={() => setAsking({ what: 'celsius' })}
        />
        <FigureKey
          name="For"
          figure={load.figures.minutes === '' ? '–' : `${load.figures.minutes} min`}
          onClick={() => setAsking({ what: 'minutes' })}
        />
      </div>
      <WhenWho value={load.whenWho} onChange={load.setWhenWho} />

      {asking ? (
        <LoadFigure
          asking={asking}
          value={'run' in asking ? (load.pieces.get(asking.run) ?? '') : load.figures[asking.what]}
          onClose={() => setAsking(undefined)}
          onChange={(v) => {
            if ('run' in asking) load.setPiecesOf(asking.run, v);
            else load.setFigure(asking.what, v);
          }}
        />
      ) : null}
    </Screen>
  );
}

function Products({ load, onAsk }: { readonly load: ReturnType<typeof useNewLoad>; readonly onAsk: (figure: Figure) => void }) {
  const { zone } = useNight();
  return (
    <Section title="What">
      {load.open.length === 0 ? (
        <Empty>Nothing is made up and waiting. “Make up” on a dough says what there is.</Empty>
      ) : (
        <div className="figure-keys">
          {load.open.map(({ run, make }) => (
            <button
              key={run.id}
              type="button"
              className="figure-key"
              aria-pressed={load.pieces.has(run.id)}
              onClick={() => load.toggle(run)}
            >
              <b>{run.name}</b>
              <span>{whole(leftToLoad(run))} waiting</span>
              {load.open.filter((o) => o.run.name === run.name).length > 1 ? (
                <span>
                  {make.name}, begun {wallTime(make.at, zone)}
                </span>
              ) : null}
              <LotTrouble lot={run.id} />
            </button>
          ))}
        </div>
      )}
      {load.open.length > 1 && load.pieces.size < load.open.length ? (
        <Button look="quiet" onClick={load.takeAll}>
          All of them
        </Button>
      ) : null}
      {load.lines.map((l) => (
        <Button key={l.run} onClick={() => onAsk({ run: l.run })}>
          {`${load.runs.find(({ run }) => run.id === l.run)?.run.name ?? ''}: ${whole(l.pieces)} pieces`}
        </Button>
      ))}
    </Section>
  );
}

const asks = { celsius: { title: 'Oven', label: 'Set to', unit: '°C' }, minutes: { title: 'Minutes', label: 'For', unit: 'min' } } as const;
interface SheetProps {
  readonly asking: Figure;
  readonly value: string;
  readonly onChange: (value: string) => void;
  readonly onClose: () => void;
}

function LoadFigure({ asking, value, onChange, onClose }: SheetProps) {
  const { title, label, unit } = 'run' in asking ? { title: 'Pieces in this load', label: 'Pieces', unit: '' } : asks[asking.what];
  return <FigureSheet title={title} onClose={onClose} label={label} unit={unit} decimals={false} value={value} onChange={onChange} />;
}
