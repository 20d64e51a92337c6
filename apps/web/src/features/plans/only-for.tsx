import { Pick } from '../../shared/drafts/fields';
import { useNow, useTabletState } from '../../shared/tablet-context';
import { Button } from '../../ui';
import { formulasOf, productsOf, type Named } from './names';
import type { PointText } from './text';

interface Props {
  readonly point: PointText;
  readonly onChange: (to: Partial<PointText>) => void;
}

/** What a point is for: all that has its step, or only the products and formulas that are named. */
export function OnlyFor({ point: { name, products, formulas }, onChange }: Props) {
  const { snapshot } = useTabletState();
  const inUse = formulasOf(snapshot, useNow(60_000));
  return (
    <>
      <p>{products.length === 0 && formulas.length === 0 ? 'For everything that has this step.' : 'Only for:'}</p>
      <div className="small-fields">
        <Chosen of={products} among={productsOf(snapshot)} type="product" point={name} onChange={(to) => onChange({ products: to })} />
        <Chosen of={formulas} among={inUse} type="formula" point={name} onChange={(to) => onChange({ formulas: to })} />
      </div>
    </>
  );
}

interface ChosenProps {
  readonly of: readonly string[];
  readonly among: readonly Named[];
  readonly type: string;
  readonly point: string;
  readonly onChange: (to: string[]) => void;
}

function Chosen({ of, among, type, point, onChange }: ChosenProps) {
  return (
    <div>
      {of.map((id) => {
        const text = among.find((one) => one.value === id)?.text ?? `a ${type} that is not in the list`;
        return (
          <p key={id}>
            {text}{' '}
            <Button look="quiet" label={`${point}: take out ${text}`} onClick={() => onChange(of.filter((other) => other !== id))}>
              Take out
            </Button>
          </p>
        );
      })}
      <Pick
        label={`One more ${type}`}
        value={null}
        nothing={`choose a ${type}`}
        options={among.filter((one) => !of.includes(one.value))}
        onChange={(id) => onChange(id === null ? [...of] : [...of, id])}
      />
    </div>
  );
}
