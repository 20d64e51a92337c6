import { divisionSum, type PayloadFor, type Row } from '@bakehouse/records';
import { systemClock, systemIds } from '@bakehouse/offline';
import { useState } from 'react';
import { useLocation } from 'wouter';
import { mass, inGrams } from '../../shared/format';
import { Button, figureOf, FigureSheet, Screen } from '../../ui';
import { paths } from '../../shared/night/paths';
import { useAct } from '../../shared/use-act';
import { AnotherProduct } from './another-product';
import { useNight } from '../../shared/night/use-night';
import { WhenWho, type WhenAndWho } from '../../shared/night/when-who';
import { NotHere } from '../../shared/night/not-here';

export interface RunLine {
  readonly run: string;
  readonly product: string;
  readonly name: string;
  readonly heads: string;
  readonly pieces: string;
  readonly scaling: string;
}
export interface MadeUp {
  readonly runs: readonly RunLine[];
  readonly oldDough: string;
  readonly scrap: string;
}
type Cell = { readonly run: string; readonly what: 'heads' | 'pieces' | 'scaling' } | { readonly what: 'oldDough' | 'scrap' };

const mgOf = (typed: string): number => {
  const f = figureOf(typed);
  return f === undefined ? 0 : Math.round(Number(f) * 1000);
};
const amount = (typed: string) => {
  const figure = figureOf(typed);
  return figure === undefined || Number(figure) === 0 ? null : ({ figure, unit: 'g' } as const);
};

/** The payload of a make-up: products with pieces, old dough and scrap. */
export function dividedPayload(make: string, { runs, oldDough, scrap }: MadeUp): PayloadFor<'divided'> {
  return {
    make,
    quantity: null,
    oldDough: amount(oldDough),
    scrap: amount(scrap),
    runs: runs
      .filter((r) => Number(r.pieces) > 0)
      .map((r) => ({
        run: r.run,
        product: r.product,
        heads: Number(r.heads) > 0 ? Number(r.heads) : null,
        pieces: Number(r.pieces),
        scaling: { figure: figureOf(r.scaling) ?? '0', unit: 'g' },
      })),
  };
}

export function sumOf(made: MadeUp, inMg: number | null) {
  return divisionSum(
    inMg,
    made.runs.map((r) => ({ pieces: Number(r.pieces), scalingMg: mgOf(r.scaling) })),
    mgOf(made.oldDough),
    mgOf(made.scrap),
  );
}

/** A dough becomes products: pieces and scaling weights stand there, the sum is shown while it is typed. */
export function MakeUp({ id }: { readonly id: string }) {
  const { view, state } = useNight();
  const [, go] = useLocation();
  const make = view.makes.find((m) => m.id === id);
  const version = make && state.rows.get('formulaVersion', make.formulaVersion);
  const [made, setMade] = useState<MadeUp>(() => ({ runs: version ? linesOf(version, make.plannedMg) : [], oldDough: '', scrap: '' }));
  const [whenWho, setWhenWho] = useState<WhenAndWho>({});
  const { act, busy, trouble } = useAct();
  const back = { to: paths.make(id), text: make?.name ?? 'Mix' };
  if (!make) return <NotHere title="Make up" back={back} what="mix" />;
  const save = async (): Promise<void> => {
    if (await act({ kind: 'divided', ...whenWho, payload: dividedPayload(id, made) })) go(paths.make(id));
  };
  return (
    <Screen
      title={`${make.name}: make up`}
      back={back}
      actions={
        <Button look="go" disabled={busy} onClick={() => void save()}>
          Record the make-up
        </Button>
      }
    >
      {trouble}
      <MakeUpTable made={made} onChange={setMade} inMg={make.inMg} />
      <WhenWho value={whenWho} onChange={setWhenWho} />
    </Screen>
  );
}

/** The pieces that the formula says, in the measure in which the dough was begun: half a dough is half the pieces. */
function linesOf(version: Row<'formulaVersion'>, plannedMg: number | null): RunLine[] {
  const whole = version.content.lines.reduce((sum, l) => sum + l.mg, 0);
  const share = plannedMg === null || whole === 0 ? 1 : plannedMg / whole;
  return version.content.products.map((p) => ({
    run: systemIds.entry(systemClock.now()),
    product: p.product,
    name: p.name,
    heads: '',
    pieces: p.pieces === null ? '' : String(Math.round(p.pieces * share)),
    scaling: inGrams(p.scalingMg),
  }));
}

const addedRun = (product: string, name: string): RunLine => ({
  ...{ run: systemIds.entry(systemClock.now()), product, name },
  ...{ heads: '', pieces: '', scaling: '' },
});

const titles = { heads: 'Heads', pieces: 'Pieces', scaling: 'Grams each', oldDough: 'Old dough kept', scrap: 'Scrap' } as const;

interface TableProps {
  readonly made: MadeUp;
  readonly onChange: (made: MadeUp) => void;
  readonly inMg: number | null;
}

export function MakeUpTable({ made, onChange, inMg }: TableProps) {
  const [cell, setCell] = useState<Cell>();
  const sum = sumOf(made, inMg);
  const value = cell && ('run' in cell ? (made.runs.find((r) => r.run === cell.run)?.[cell.what] ?? '') : made[cell.what]);
  const set = (typed: string): void => {
    if (cell)
      onChange(
        'run' in cell
          ? { ...made, runs: made.runs.map((r) => (r.run === cell.run ? { ...r, [cell.what]: typed } : r)) }
          : { ...made, [cell.what]: typed },
      );
  };
  const key = (at: Cell, text: string, label: string) => (
    <Button label={text === '' ? label : `${label}, ${text}`} onClick={() => setCell(at)}>
      {text === '' ? '–' : text}
    </Button>
  );
  return (
    <>
      <table className="lines">
        <thead>
          <tr>
            <th scope="col">Product</th>
            <th scope="col">Heads</th>
            <th scope="col">Pieces</th>
            <th scope="col">Each</th>
            <th scope="col" className="amount">
              Together
            </th>
          </tr>
        </thead>
        <tbody>
          {made.runs.map((r) => (
            <tr key={r.run}>
              <td>{r.name}</td>
              <td>{key({ run: r.run, what: 'heads' }, r.heads, `${r.name}: heads`)}</td>
              <td>{key({ run: r.run, what: 'pieces' }, r.pieces, `${r.name}: pieces`)}</td>
              <td>{key({ run: r.run, what: 'scaling' }, `${r.scaling} g`, `${r.name}: grams each`)}</td>
              <td className="amount">{mass(Number(r.pieces) * mgOf(r.scaling))}</td>
            </tr>
          ))}
          {(['oldDough', 'scrap'] as const).map((what) => (
            <tr key={what}>
              <td colSpan={3}>{titles[what]}</td>
              <td>{key({ what }, made[what] === '' ? '' : `${made[what]} g`, titles[what])}</td>
              <td className="amount">{mass(mgOf(made[what]))}</td>
            </tr>
          ))}
        </tbody>
        <tfoot>
          <tr>
            <td colSpan={4}>In all</td>
            <td className="amount">{mass(sum.runsMg + sum.oldDoughMg + sum.scrapMg)}</td>
          </tr>
        </tfoot>
      </table>
      <Sum sum={sum} />
      <AnotherProduct
        there={made.runs.map((r) => r.product)}
        onAdd={(product, name) => onChange({ ...made, runs: [...made.runs, addedRun(product, name)] })}
      />
      {cell === undefined || value === undefined ? null : (
        <CellSheet what={cell.what} value={value} onChange={set} onClose={() => setCell(undefined)} />
      )}
    </>
  );
}

function Sum({ sum }: { readonly sum: ReturnType<typeof sumOf> }) {
  return (
    <p className="sum" role="status">
      {sum.differenceMg === null
        ? 'What went in is not known, so there is nothing to compare with.'
        : sum.differenceMg === 0
          ? `It sums: ${mass(sum.inMg)} went in.`
          : sum.differenceMg > 0
            ? `${mass(sum.differenceMg)} of ${mass(sum.inMg)} are not in the sum yet.`
            : `${mass(-sum.differenceMg)} more than the ${mass(sum.inMg)} that went in.`}
    </p>
  );
}

interface CellProps {
  readonly what: Cell['what'];
  readonly value: string;
  readonly onChange: (typed: string) => void;
  readonly onClose: () => void;
}

function CellSheet({ what, value, onChange, onClose }: CellProps) {
  return (
    <FigureSheet
      title={titles[what]}
      onClose={onClose}
      label={titles[what]}
      unit={what === 'pieces' || what === 'heads' ? '' : 'g'}
      decimals={what !== 'pieces' && what !== 'heads'}
      value={value}
      onChange={onChange}
    />
  );
}
