import { formulaPercents, inSteps, scaleSteps, type Row, type WeighedIn } from '@bakehouse/records';
import { convertExact } from '@bakehouse/kernel';
import { useState } from 'react';
import { Figure, Pick } from '../../shared/drafts/fields';
import '../../shared/drafts/drafts.css';
import { mass } from '../../shared/format';
import { percentText } from './text';
import { Choice, Notice, Section } from '../../ui';
import { weighedText } from './weighed-text';

type Content = Row<'formulaVersion'>['content'];
type How = 'written' | 'pieces' | 'weight';
interface WantedAmount {
  readonly how: How;
  /** How many of each product, and how much dough besides, in milligrams. */
  readonly pieces: Readonly<Record<string, number | null>>;
  readonly besidesMg: number | null;
  /** The dough wanted, in the unit that is weighed in. */
  readonly weight: number | null;
  readonly unit: WeighedIn;
  readonly step: string;
}

const wholeMg = ({ lines }: Content): number => lines.reduce((mg, l) => mg + l.mg, 0);
const maxMg = 10_000_000_000;

/** What the lines shall weigh together; undefined where what was typed gives no amount. */
function wantedMg(content: Content, { how, pieces, besidesMg, weight, unit }: WantedAmount): number | undefined {
  const mg = {
    written: () => wholeMg(content),
    pieces: () => content.products.reduce((sum, p) => sum + (pieces[p.product] ?? 0) * p.scalingMg, besidesMg ?? 0),
    weight: () =>
      convertExact(String(weight ?? 0), unit === 'oz' ? 'lb' : 'g', 'mg')
        .toDecimalPlaces(0)
        .toNumber(),
  }[how]();
  return mg > 0 && mg <= maxMg ? mg : undefined;
}

/** What goes in, as the formula is written or scaled to what is wanted; to the step of the scale, so that the lines sum to the whole. */
export function FormulaLines({ content }: { readonly content: Content }) {
  const [wanted, setWanted] = useState<WantedAmount>({ how: 'written', pieces: {}, besidesMg: null, weight: null, unit: 'g', step: '1' });
  const mg = wantedMg(content, wanted);
  return (
    <Section title="What goes in">
      <HowMuch content={content} wanted={wanted} onChange={(to) => setWanted((before) => ({ ...before, ...to }))} />
      {mg === undefined ? (
        <p className="hint">Say how many pieces or how much dough, at most 10 t; then the lines stand here.</p>
      ) : (
        <Lines content={content} mg={mg} wanted={wanted} />
      )}
    </Section>
  );
}

function HowMuch({
  content,
  wanted: { how, pieces, besidesMg, weight, unit, step },
  onChange,
}: {
  readonly content: Content;
  readonly wanted: WantedAmount;
  readonly onChange: (to: Partial<WantedAmount>) => void;
}) {
  const ways = [
    { value: 'written', text: 'as written' },
    ...(content.products.length === 0 ? [] : [{ value: 'pieces', text: 'for pieces' } as const]),
    { value: 'weight', text: 'for a weight' },
  ] as const;
  return (
    <div className="not-printed">
      <Choice label="How much" value={how} options={ways} onChange={(to) => onChange({ how: to })} />
      <Choice
        label="Weighed in"
        value={unit}
        options={[
          { value: 'g', text: 'grams' },
          { value: 'oz', text: 'pounds and ounces' },
        ]}
        onChange={(to) => onChange({ unit: to, weight: null, step: to === 'g' ? '1' : '0.1' })}
      />
      <div className="small-fields">
        {how === 'pieces'
          ? content.products.map((p) => (
              <Figure
                key={p.product}
                label={`${p.name}, of ${mass(p.scalingMg)}`}
                unit="pieces"
                value={pieces[p.product] ?? null}
                onChange={(n) => onChange({ pieces: { ...pieces, [p.product]: n === null ? null : Math.max(0, n) } })}
              />
            ))
          : null}
        {how === 'pieces' ? (
          <Figure
            label="Dough besides, to keep or lose"
            unit="g"
            per={1000}
            value={besidesMg}
            onChange={(to) => onChange({ besidesMg: to })}
          />
        ) : null}
        {how === 'weight' ? <Weight key={unit} unit={unit} value={weight} onChange={(to) => onChange({ weight: to })} /> : null}
        {how === 'written' && unit === 'g' ? null : (
          <Pick
            label="The scale shows"
            value={step}
            options={scaleSteps[unit].map((value) => ({ value, text: `${value} ${unit}` }))}
            onChange={(to) => onChange({ step: to ?? step })}
          />
        )}
      </div>
    </div>
  );
}

interface WeightProps {
  readonly unit: WeighedIn;
  readonly value: number | null;
  readonly onChange: (value: number | null) => void;
}
/** Kept in thousandths while it is typed, so that half a pound stays half a pound. */
function Weight({ unit, value, onChange }: WeightProps) {
  return (
    <Figure
      label="Dough in all"
      unit={unit === 'g' ? 'g' : 'lb'}
      per={1000}
      value={value === null ? null : Math.round(value * 1000)}
      onChange={(thousandths) => onChange(thousandths === null ? null : thousandths / 1000)}
    />
  );
}

function Lines({
  content,
  mg,
  wanted: { how, unit, step },
}: {
  readonly content: Content;
  readonly mg: number;
  readonly wanted: WantedAmount;
}) {
  const percents = formulaPercents(content);
  const scaled = inSteps(content, mg, unit, step);
  const asWritten = how === 'written' && unit === 'g'; // exactly as it was signed: no scale's step comes in
  const weight = (i: number): string => (asWritten ? mass(content.lines[i]?.mg ?? 0) : weighedText(scaled.lines[i] ?? '0', unit));
  return (
    <>
      {!asWritten && scaled.vanished ? (
        <Notice tone="ask" title="A line came to nothing">
          <p>It weighs less than the scale shows. Take a finer step.</p>
        </Notice>
      ) : null}
      <table className="lines">
        <thead>
          <tr>
            <th scope="col">What</th>
            <th scope="col" className="amount">
              Weight
            </th>
            <th scope="col" className="amount">
              Of the flour
            </th>
          </tr>
        </thead>
        <tbody>
          {content.lines.map((l, i) => (
            <tr key={`${l.material} ${i}`}>
              <td>
                {l.name}
                {l.madeBy === null ? '' : ' (made here)'}
              </td>
              <td className="amount">{weight(i)}</td>
              <td className="amount">{percentText(percents[i] ?? null)}</td>
            </tr>
          ))}
        </tbody>
        <tfoot>
          <tr>
            <td>Together</td>
            <td className="amount">{asWritten ? mass(mg) : weighedText(scaled.total, unit)}</td>
            <td />
          </tr>
        </tfoot>
      </table>
      {asWritten ? null : (
        <p className="faint">
          Each line to {step} {unit}, shared out so that the lines sum to the whole. Percentages are the formula’s own.
        </p>
      )}
    </>
  );
}
