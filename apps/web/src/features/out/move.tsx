import { phrase } from '@bakehouse/records';
import { useState } from 'react';
import { placesOf } from '../../shared/in-force';
import { useAct } from '../../shared/use-act';
import { AmountPad, unitsName, unitsOf, useAmount, type AmountTyped, type AmountUnit } from '../../shared/amount-pad';
import { Button, Choice, Empty, Field, Notice, Screen, Section, Sheet } from '../../ui';
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
  readonly units: readonly AmountUnit[];
}

type Amount = NonNullable<AmountTyped['quantity']>;
/** How much of each lot is carried: null for all of it. */
type Taken = ReadonlyMap<string, Amount | null>;

/** Everything that can be carried: products first, then ingredients. */
function useMovable(): readonly Movable[] {
  const { products } = useOnHand();
  const { lots, night } = useStock();
  return [
    ...products.flatMap((p) =>
      p.lots.map((l): Movable => ({
        id: l.id,
        title: `${p.name}, ${l.code}`,
        where: l.where?.name ?? null,
        from: l.where?.place ?? null,
        units: ['piece'],
      })),
    ),
    ...lots.map((l): Movable => ({
      id: l.id,
      title: `${l.name}, ${codeText(l.code)}`,
      where: l.where?.name ?? null,
      from: l.where?.place ?? null,
      units: unitsOf(night.lookup, l.id),
    })),
  ];
}

/** From one place of the house to another: chiller, freezer, store, van. All of a lot unless somebody says how much. */
export function Move() {
  const all = useMovable();
  const { state } = useOnHand().night;
  const places = placesOf(state.snapshot, ['chiller', 'fridge', 'freezer', 'retarder', 'store', 'counter', 'station', 'van']);
  const [to, setTo] = useState<string | null>(null);
  const [taken, setTaken] = useState<Taken>(new Map());
  const [asking, setAsking] = useState<Movable>();
  const [whenWho, setWhenWho] = useState<WhenAndWho>({});
  const [done, setDone] = useState<string>();
  const { act, busy, trouble } = useAct();
  const save = async (): Promise<void> => {
    if (to === null) return;
    const lines = all.flatMap((m) => {
      const quantity = taken.get(m.id);
      if (quantity === undefined) return [];
      return [{ lot: m.id, from: m.from, quantity, how: m.units.includes('piece') ? ('counted' as const) : ('weighed' as const) }];
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
          was={taken.get(asking.id) ?? null}
          onClose={() => setAsking(undefined)}
          onTaken={(amount) => {
            setTaken(new Map(taken).set(asking.id, amount));
            setAsking(undefined);
          }}
          onLeft={() => {
            setTaken(new Map([...taken].filter(([id]) => id !== asking.id)));
            setAsking(undefined);
          }}
        />
      ) : null}
    </Screen>
  );
}

interface WhatProps {
  readonly all: readonly Movable[];
  readonly taken: Taken;
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
            <b>{amountText(taken.get(m.id))}</b>
          </button>
        ))}
      </div>
    </Section>
  );
}

const amountText = (amount: Amount | null | undefined): string =>
  amount === undefined ? '–' : amount === null ? 'all of it' : `${amount.figure} ${unitsName(amount.unit)}`;

interface HowMuchProps {
  readonly of: Movable;
  readonly was: Amount | null;
  readonly onClose: () => void;
  readonly onTaken: (amount: Amount | null) => void;
  readonly onLeft: () => void;
}

function HowMuch({ of, was, onClose, onTaken, onLeft }: HowMuchProps) {
  const amount = useAmount(of.units, was);
  const all = Number(amount.typed) === 0;
  return (
    <Sheet title={of.title} onClose={onClose}>
      <AmountPad label={amount.unit === 'piece' ? 'How many, if not all' : 'How much, if not all'} amount={amount} />
      <div className="buttons">
        <Button look="go" onClick={() => onTaken(all ? null : amount.quantity)}>
          {all ? 'All of it' : 'This much'}
        </Button>
        <Button onClick={onLeft}>Not this one</Button>
      </div>
    </Sheet>
  );
}
