import { formulaPercents } from '@bakehouse/records';
import { mass } from '../../shared/format';
import { Button, Section } from '../../ui';
import type { Choices, MaterialChoice } from './choices';
import { Figure, Pick, RowKeys } from '../../shared/drafts/fields';
import { changedAt } from '../../shared/drafts/lists';
import { blankLine, type Line } from './text';

interface Props {
  readonly lines: readonly Line[];
  readonly formula: string;
  readonly makes: string | null;
  readonly choices: Choices;
  readonly onChange: (lines: Line[]) => void;
}

/** What goes in: a material and its weight a line; percentages of all flours follow while one types. */
export function LinesEditor(props: Props) {
  const { lines, choices, onChange } = props;
  const weights = lines.map((l) => ({
    material: l.material ?? '',
    name: l.name,
    mg: l.mg !== null && l.mg > 0 ? l.mg : 0,
    flour: l.flour,
    madeBy: l.madeBy,
  }));
  const percents = formulaPercents({ lines: weights });
  const sum = (some: typeof weights): number => some.reduce((mg, l) => mg + l.mg, 0);
  const options = choices.materials.filter((m) => m.type !== 'product' && m.type !== 'packaging');
  return (
    <Section title="What goes in">
      <table className="lines editing">
        <thead>
          <tr>
            <th scope="col">Material</th>
            <th scope="col">Weight</th>
            <th scope="col" className="amount">
              Of the flour
            </th>
            <th scope="col">
              <span className="unseen">Move or take out</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {lines.map((l, i) => (
            <LineRow key={i} at={i} line={l} options={options} percent={percents[i] ?? null} {...props} />
          ))}
        </tbody>
        <tfoot>
          <tr>
            <td>Together, {mass(sum(weights.filter((l) => l.flour)))} of it flour</td>
            <td>{mass(sum(weights))}</td>
            <td className="amount">as written</td>
            <td />
          </tr>
        </tfoot>
      </table>
      <p className="hint">All flours on these lines are 100 %. Flour inside what is made here is not counted in them.</p>
      <div className="buttons">
        <Button onClick={() => onChange([...lines, blankLine])}>One more line</Button>
      </div>
    </Section>
  );
}

interface RowProps extends Props {
  readonly at: number;
  readonly line: Line;
  readonly options: readonly MaterialChoice[];
  readonly percent: number | null;
}

function LineRow({ at: i, line: l, options, percent, lines, formula, makes, choices, onChange }: RowProps) {
  const chosen = (material: MaterialChoice | undefined): Partial<Line> => ({
    material: material?.value ?? null,
    name: material?.text ?? '',
    flour: material?.flour ?? false,
    madeBy: material === undefined ? null : material.value === makes ? formula : material.madeBy,
  });
  return (
    <tr>
      <td>
        <Pick
          label={`Material of line ${i + 1}`}
          hideLabel
          value={l.material}
          nothing="choose"
          options={options}
          onChange={(id) => onChange(changedAt(lines, i, chosen(options.find((m) => m.value === id))))}
        />
        {l.flour ? <span className="faint"> flour</span> : null}
        {l.madeBy === null ? null : (
          <span className="faint"> made here: {l.madeBy === formula ? 'this formula' : choices.nameOf(l.madeBy)}</span>
        )}
      </td>
      <td>
        <Figure
          label={`Grams of line ${i + 1}`}
          hideLabel
          value={l.mg}
          per={1000}
          unit="g"
          onChange={(mg) => onChange(changedAt(lines, i, { mg }))}
        />
      </td>
      <td className="amount">{percent === null ? '' : `${percent.toFixed(2)} %`}</td>
      <RowKeys what={`line ${i + 1}`} list={lines} at={i} onChange={onChange} />
    </tr>
  );
}
