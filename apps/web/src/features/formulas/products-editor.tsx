import { additionAfter, phrase } from '@bakehouse/records';
import { Button, Section } from '../../ui';
import type { Choices } from './choices';
import { Figure, Pick, Words } from '../../shared/drafts/fields';
import { changedAt, without } from '../../shared/drafts/lists';
import { blankAddition, blankOven, blankProduct, type Addition, type Oven, type Product } from './text';

interface Props {
  readonly products: readonly Product[];
  readonly choices: Choices;
  readonly onChange: (products: Product[]) => void;
}

/** What is made of it: weights, pieces, how long it keeps, how each oven bakes it, and what goes on it besides. */
export function ProductsEditor({ products, choices, onChange }: Props) {
  return (
    <Section title="Products">
      <div className="cards wide">
        {products.map((p, i) => (
          <ProductCard
            key={i}
            p={p}
            n={i + 1}
            choices={choices}
            onChange={(to) => onChange(changedAt(products, i, to))}
            onTakeOut={() => onChange(without(products, i))}
          />
        ))}
      </div>
      <div className="buttons">
        <Button onClick={() => onChange([...products, blankProduct])}>One more product</Button>
      </div>
    </Section>
  );
}

const dateTypes = (['best-before', 'use-by'] as const).map((value) => ({ value, text: phrase(`dateType.${value}`) }));

interface CardProps {
  readonly p: Product;
  readonly n: number;
  readonly choices: Choices;
  readonly onChange: (to: Partial<Product>) => void;
  readonly onTakeOut: () => void;
}

function ProductCard({ p, n, choices, onChange, onTakeOut }: CardProps) {
  const options = choices.materials.filter((m) => m.type === 'product');
  return (
    <fieldset className="card editing-card">
      <legend>{p.name === '' ? `Product ${n}` : p.name}</legend>
      <Pick
        label="Product"
        value={p.product}
        nothing="choose"
        options={options}
        onChange={(product) => onChange({ product, name: options.find((o) => o.value === product)?.text ?? '' })}
      />
      <div className="small-fields">
        <Figure label="Dough a piece" unit="g" per={1000} value={p.scalingMg} onChange={(scalingMg) => onChange({ scalingMg })} />
        <Figure label="Pieces a mix" value={p.pieces} onChange={(pieces) => onChange({ pieces })} />
        <Figure label="Baked" unit="g" per={1000} value={p.bakedMg} onChange={(bakedMg) => onChange({ bakedMg })} />
        <Figure label="Bake loss" unit="%" per={10_000} value={p.lossPpm} onChange={(lossPpm) => onChange({ lossPpm })} />
        <Figure label="Keeps" unit="days" value={p.lifeDays} onChange={(lifeDays) => onChange({ lifeDays })} />
        <Pick
          label="Date"
          value={p.dateType}
          options={dateTypes}
          onChange={(dateType) => onChange({ dateType: dateType === 'use-by' ? 'use-by' : 'best-before' })}
        />
      </div>
      <Ovens ovens={p.ovens} onChange={(ovens) => onChange({ ovens })} />
      <Additions additions={p.additions} choices={choices} onChange={(additions) => onChange({ additions })} />
      <Button look="quiet" label={`Take this product out: product ${n}`} onClick={onTakeOut}>
        Take this product out
      </Button>
    </fieldset>
  );
}

function Ovens({ ovens, onChange }: { readonly ovens: readonly Oven[]; readonly onChange: (ovens: Oven[]) => void }) {
  return (
    <>
      {ovens.map((o, i) => (
        <div key={i} className="small-fields">
          <Words label="Oven" value={o.oven} onChange={(oven) => onChange(changedAt(ovens, i, { oven }))} />
          <Figure label="Set to" unit="°C" value={o.celsius} onChange={(celsius) => onChange(changedAt(ovens, i, { celsius }))} />
          <Figure
            label="Finish at"
            unit="°C"
            value={o.finishCelsius}
            onChange={(finishCelsius) => onChange(changedAt(ovens, i, { finishCelsius }))}
          />
          <Figure label="Minutes" value={o.minutes} onChange={(minutes) => onChange(changedAt(ovens, i, { minutes }))} />
          <Figure
            label="Steam"
            unit="s"
            value={o.steamSeconds}
            onChange={(steamSeconds) => onChange(changedAt(ovens, i, { steamSeconds }))}
          />
          <Button look="quiet" label={`Take out oven ${i + 1}`} onClick={() => onChange(without(ovens, i))}>
            Take out
          </Button>
        </div>
      ))}
      <Button onClick={() => onChange([...ovens, blankOven])}>One more oven</Button>
      {ovens.length > 1 ? <p className="hint">Each oven has settings of its own: one oven’s are no conversion of another’s.</p> : null}
    </>
  );
}

const afters = additionAfter.options.map((value) => ({ value, text: phrase(`addition.${value}`) }));

function Additions({
  additions,
  choices,
  onChange,
}: {
  readonly additions: readonly Addition[];
  readonly choices: Choices;
  readonly onChange: (additions: Addition[]) => void;
}) {
  const options = choices.materials.filter((m) => m.type !== 'product' && m.type !== 'packaging');
  return (
    <>
      {additions.map((a, i) => (
        <div key={i} className="small-fields">
          <Pick
            label="On or under it"
            value={a.material}
            nothing="choose"
            options={options}
            onChange={(material) =>
              onChange(changedAt(additions, i, { material, name: options.find((o) => o.value === material)?.text ?? '' }))
            }
          />
          <Figure
            label="A piece, if weighed"
            unit="g"
            per={1000}
            value={a.mgPerPiece}
            onChange={(mgPerPiece) => onChange(changedAt(additions, i, { mgPerPiece }))}
          />
          <Pick
            label="When"
            value={a.after}
            options={afters}
            onChange={(after) => onChange(changedAt(additions, i, { after: after === 'after-oven' ? 'after-oven' : 'before-oven' }))}
          />
          <Button look="quiet" label={`Take out addition ${i + 1}`} onClick={() => onChange(without(additions, i))}>
            Take out
          </Button>
        </div>
      ))}
      <Button onClick={() => onChange([...additions, blankAddition])}>Seeds, wash, glaze or tin oil</Button>
    </>
  );
}
