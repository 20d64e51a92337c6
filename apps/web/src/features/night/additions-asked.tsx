import { additionsAsked, codeOf, notPutOn, type AdditionAsked } from '@bakehouse/views';
import { useState, type ReactNode } from 'react';
import { useAllTheSame } from '../../shared/night/all-the-same';
import { codeText } from '../../shared/night/code-text';
import { lotsToOpen, openFor } from '../../shared/night/lots';
import { useNight } from '../../shared/night/use-night';
import type { WhenAndWho } from '../../shared/night/when-who';
import { useAct } from '../../shared/use-act';
import { Button, Sheet, StateWord, Tile, Tiles } from '../../ui';
import { LotTrouble } from './lot-cell';

interface RowsProps {
  readonly list: readonly AdditionAsked[];
  readonly whenWho?: WhenAndWho;
}

/** What the formula puts on, each answered with one tap: it is on it, of the lot that is open, or it is not; or of another lot. */
export function AdditionsAsked({ list, whenWho = {} }: RowsProps) {
  const { lookup, state, now } = useNight();
  const { act, busy, trouble } = useAct();
  const { unlessTroubled, asked } = useAllTheSame();
  const [another, setAnother] = useState<AdditionAsked>();
  const openOf = ({ make, material }: AdditionAsked): string | null => {
    const row = state.rows.get('make', make);
    const open = openFor(lookup, row?.station ?? null, row?.at ?? now, now);
    return open.filter((o) => o.material === material).at(-1)?.lot ?? null;
  };
  const put = (a: AdditionAsked, lot: string | null): void => {
    const lines = [{ material: a.material, lot, quantity: null, how: 'estimated' as const }];
    const payload = { targetType: 'run' as const, target: a.run, afterOven: a.after === 'after-oven', lines };
    setAnother(undefined);
    unlessTroubled([lot], () => void act({ kind: 'added-on', ...whenWho, payload }));
  };
  const notOn = ({ make, material, product }: AdditionAsked): void =>
    void act({
      ...{ kind: 'one-off-changed', ...whenWho, payload: { make, material, instead: null } },
      words: { change: notPutOn(product) },
    });
  return (
    <>
      {trouble}
      {asked}
      <ul className="rows">
        {list.map((a) => (
          <Asked key={`${a.run} ${a.material}`} a={a} open={openOf(a)} busy={busy} onPut={put} onNot={notOn} onAnother={setAnother} />
        ))}
      </ul>
      {another ? <AnotherLot a={another} onClose={() => setAnother(undefined)} onChosen={(lot) => put(another, lot)} /> : null}
    </>
  );
}

interface AskedProps {
  readonly a: AdditionAsked;
  readonly open: string | null;
  readonly busy: boolean;
  readonly onPut: (a: AdditionAsked, lot: string) => void;
  readonly onNot: (a: AdditionAsked) => void;
  readonly onAnother: (a: AdditionAsked) => void;
}

function Asked({ a, open, busy, onPut, onNot, onAnother }: AskedProps) {
  const { lookup } = useNight();
  const code = open === null ? null : codeText(codeOf(lookup, open));
  const of = `${a.name} on ${a.product}`;
  return (
    <li className="row">
      <span className="row-main">
        <strong>{a.name}</strong> on {a.product}, {code === null ? 'none is open' : `${code} is open`} <LotTrouble lot={open} />
      </span>
      <span className="line-keys">
        {open === null ? null : (
          <Button label={`${of}: yes, ${code}`} disabled={busy} onClick={() => onPut(a, open)}>
            Yes
          </Button>
        )}
        <Button label={`${of}: not on it`} disabled={busy} onClick={() => onNot(a)}>
          Not on it
        </Button>
        <Button label={`${of}: ${open === null ? 'which lot' : 'another lot'}`} disabled={busy} onClick={() => onAnother(a)}>
          {open === null ? 'Yes: which lot?' : 'Another lot'}
        </Button>
      </span>
    </li>
  );
}

interface AnotherProps {
  readonly a: AdditionAsked;
  readonly onClose: () => void;
  readonly onChosen: (lot: string | null) => void;
}

function AnotherLot({ a, onClose, onChosen }: AnotherProps) {
  const { lookup, now } = useNight();
  const open = openFor(lookup, null, now, now).filter((o) => o.material === a.material);
  const lots = [...new Set([...open.map((o) => o.lot), ...lotsToOpen(lookup, a.material).map((l) => l.id)])];
  return (
    <Sheet title={`${a.name} on ${a.product}: which lot?`} onClose={onClose}>
      <Tiles label="Lots">
        {lots.map((lot) => (
          <Tile key={lot} title={codeText(codeOf(lookup, lot))} mark={<LotTrouble lot={lot} />} onClick={() => onChosen(lot)} />
        ))}
      </Tiles>
      <div className="buttons">
        <Button onClick={() => onChosen(null)}>Lot not known</Button>
      </div>
    </Sheet>
  );
}

export interface UnlessAsked {
  /** Goes on at once where everything that the formula puts on these products before the oven is on record; else it asks first. */
  readonly unlessAsked: (runs: readonly string[], go: () => void) => void;
  readonly askedFirst: ReactNode;
}

/** Asks what is on the products before they go into the oven. They go in all the same where nobody can say. */
export function useAdditionsFirst(whenWho: WhenAndWho, goText: string): UnlessAsked {
  const { lookup } = useNight();
  const [asking, setAsking] = useState<{ readonly runs: readonly string[]; readonly go: () => void }>();
  const before = (runs: readonly string[]): AdditionAsked[] => additionsAsked(lookup, runs).filter((a) => a.after === 'before-oven');
  const close = (): void => setAsking(undefined);
  const list = asking ? before(asking.runs) : [];
  return {
    unlessAsked: (runs, go) => {
      if (before(runs).length === 0) go();
      else setAsking({ runs, go });
    },
    askedFirst: asking ? (
      <Sheet title="What is on it?" onClose={close}>
        {list.length === 0 ? (
          <StateWord shape="disc" tone="good">
            All of it is on record.
          </StateWord>
        ) : (
          <>
            <p>By its formula, and not on record yet:</p>
            <AdditionsAsked list={list} whenWho={whenWho} />
          </>
        )}
        <div className="buttons">
          <Button
            look={list.length === 0 ? 'go' : 'plain'}
            onClick={() => {
              close();
              asking.go();
            }}
          >
            {list.length === 0 ? goText : `${goText}, say it later`}
          </Button>
        </div>
      </Sheet>
    ) : null,
  };
}
