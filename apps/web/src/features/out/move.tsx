import { phrase } from '@bakehouse/records';
import { useState } from 'react';
import { placesOf } from '../../shared/in-force';
import { useAct } from '../../shared/use-act';
import { Button, Choice, Empty, Field, NumberPad, Notice, Screen, Section, Sheet } from '../../shared/ui';
import { codeText } from '../../shared/night/code-text';
import { paths } from '../../shared/night/paths';
import { WhenWho, type WhenAndWho } from '../../shared/night/when-who';
import { useStock } from './stock';
import { useOnHand } from './use-on-hand';

interface Movable {
  readonly id: string;
  readonly title: string;
  readonly where: string | null;
  readonly from: string | null;
  readonly unit: 'piece' | 'kg';
}

/** Everything that can be carried: products first, then ingredients. */
function useMovable(): readonly Movable[] {
  const { products } = useOnHand();
  const { lots } = useStock();
  return [
    ...products.flatMap((p) =>
      p.lots.map((l): Movable => ({
        id: l.id,
        title: `${p.name}, ${l.code}`,
        where: l.where?.name ?? null,
        from: l.where?.place ?? null,
        unit: 'piece',
      })),
    ),
    ...lots.map((l): Movable => ({
      id: l.id,
      title: `${l.name}, ${codeText(l.code)}`,
      where: l.where?.name ?? null,
      from: l.where?.place ?? null,
      unit: 'kg',
    })),
  ];
}

/** From one place of the house to another: chiller, freezer, store, van. All of a lot unless somebody says how much. */
export function Move() {
  const all = useMovable();
  const { state } = useOnHand().night;
  const places = placesOf(state.snapshot, ['chiller', 'fridge', 'freezer', 'retarder', 'store', 'counter', 'station', 'van']);
  const [to, setTo] = useState<string | null>(null);
  const [taken, setTaken] = useState<ReadonlyMap<string, string>>(new Map());
  const [asking, setAsking] = useState<Movable>();
  const [whenWho, setWhenWho] = useState<WhenAndWho>({});
  const [done, setDone] = useState<string>();
  const { act, busy, trouble } = useAct();
  const save = async (): Promise<void> => {
    if (to === null) return;
    const lines = all.flatMap((m) => {
      const figure = taken.get(m.id);
      if (figure === undefined) return [];
      const quantity = figure === '' ? null : { figure, unit: m.unit };
      return [{ lot: m.id, from: m.from, quantity, how: m.unit === 'kg' ? ('weighed' as const) : ('counted' as const) }];
    });
    if (!(await act({ kind: 'lots-moved', ...whenWho, payload: { to, lines } }))) return;
    setDone(places.find((p) => p.id === to)?.name ?? '');
    setTaken(new Map());
  };
  return (
    <Screen
      title="Move"
      back={{ to: paths.stock, text: 'In stock' }}
      actions={
        <Button look="go" disabled={busy || to === null || taken.size === 0} onClick={() => void save()}>
          Record it
        </Button>
      }
    >
      {trouble}
      {done === undefined || taken.size > 0 ? null : <Notice tone="good" title={`On record: moved to ${done}`} />}
      {places.length === 0 ? (
        <Empty>No chiller, freezer or store is in use here yet; it is set up in the office.</Empty>
      ) : (
        <Choice
          label="Where to?"
          value={to}
          onChange={setTo}
          options={places.map((p) => ({ value: p.id, text: `${p.name} (${phrase(`place.${p.type}`)})` }))}
        />
      )}
      <WhatIsMoved all={all} taken={taken} onChosen={setAsking} />
      <WhenWho value={whenWho} onChange={setWhenWho} />
      {asking ? (
        <HowMuch
          of={asking}
          was={taken.get(asking.id) ?? ''}
          onClose={() => setAsking(undefined)}
          onTaken={(figure) => {
            const next = new Map(taken);
            if (figure === null) next.delete(asking.id);
            else next.set(asking.id, figure);
            setTaken(next);
            setAsking(undefined);
          }}
        />
      ) : null}
    </Screen>
  );
}

interface WhatProps {
  readonly all: readonly Movable[];
  readonly taken: ReadonlyMap<string, string>;
  readonly onChosen: (of: Movable) => void;
}

function WhatIsMoved({ all, taken, onChosen }: WhatProps) {
  const [search, setSearch] = useState('');
  const wanted = search.trim().toLowerCase();
  const shown = all.filter((m) => taken.has(m.id) || m.title.toLowerCase().includes(wanted)).slice(0, 40);
  return (
    <Section title="What is moved?">
      <Field label="Find it by name or code" value={search} onChange={setSearch} />
      {shown.length === 0 ? <Empty>Nothing of that name is here by the records.</Empty> : null}
      <div className="figure-keys">
        {shown.map((m) => (
          <button key={m.id} type="button" className="figure-key" aria-pressed={taken.has(m.id)} onClick={() => onChosen(m)}>
            <span>
              {m.title}
              {m.where === null ? '' : `, now in ${m.where}`}
            </span>
            <b>{amountText(taken.get(m.id), m.unit)}</b>
          </button>
        ))}
      </div>
    </Section>
  );
}

const amountText = (figure: string | undefined, unit: Movable['unit']): string =>
  figure === undefined ? '–' : figure === '' ? 'all of it' : `${figure} ${unit === 'kg' ? 'kg' : 'pieces'}`;

interface HowMuchProps {
  readonly of: Movable;
  readonly was: string;
  readonly onClose: () => void;
  readonly onTaken: (figure: string | null) => void;
}

function HowMuch({ of, was, onClose, onTaken }: HowMuchProps) {
  const [figure, setFigure] = useState(was);
  const pieces = of.unit === 'piece';
  return (
    <Sheet title={of.title} onClose={onClose}>
      <NumberPad
        label={pieces ? 'How many, if not all' : 'How much, if not all'}
        {...(pieces ? { maxDigits: 5 } : { unit: 'kg' })}
        decimals={!pieces}
        value={figure}
        onChange={setFigure}
      />
      <div className="buttons">
        <Button look="go" onClick={() => onTaken(Number(figure) === 0 ? '' : figure)}>
          {Number(figure) === 0 ? 'All of it' : 'This much'}
        </Button>
        <Button onClick={() => onTaken(null)}>Not this one</Button>
      </div>
    </Sheet>
  );
}
