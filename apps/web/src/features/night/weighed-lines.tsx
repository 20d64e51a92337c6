import { quantityText } from '@bakehouse/kernel';
import { phrase, type PayloadOf } from '@bakehouse/records';
import { codeOf, saidOf, type Lookup } from '@bakehouse/views';
import { useState } from 'react';
import { troubleText } from '../../shared/concerns';
import { mass } from '../../shared/format';
import { Button } from '../../ui';
import { AmountSheet } from './amount-sheet';
import { codeText } from '../../shared/night/code-text';
import { useNight } from '../../shared/night/use-night';

export type WeighedLine = PayloadOf<'weighed-in'>['lines'][number];

const amountOf = ({ quantity }: WeighedLine): string => {
  if (quantity === null) return 'how much?';
  return quantity.unit === 'g' ? mass(Number(quantity.figure) * 1000) : quantityText(quantity.figure, quantity.unit);
};

/** Lines that were weighed in, to be corrected: amounts, or another lot of the same material. */
export function WeighedLines({
  lines,
  onChange,
}: {
  readonly lines: readonly WeighedLine[];
  readonly onChange: (lines: readonly WeighedLine[]) => void;
}) {
  const { state } = useNight();
  const [editing, setEditing] = useState<number>();
  const at = editing === undefined ? undefined : lines[editing];
  const nameOf = (material: string): string => state.snapshot.specification.find((s) => s.material === material)?.name ?? '';
  const set = (i: number, change: Partial<WeighedLine>): void => onChange(lines.map((l, j) => (j === i ? { ...l, ...change } : l)));
  return (
    <>
      <table className="lines">
        <tbody>
          {lines.map((l, i) => (
            <tr key={`${l.material} ${i}`}>
              <td>{nameOf(l.material)}</td>
              <td className="amount">
                <Button label={`${nameOf(l.material)}: change ${amountOf(l)}`} onClick={() => setEditing(i)}>
                  {amountOf(l)}
                </Button>
              </td>
              <td>{phrase(`how.${l.how}`)}</td>
              <td>
                <LotOf line={l} name={nameOf(l.material)} onChange={(lot) => set(i, { lot, orLots: undefined })} />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      {at === undefined || editing === undefined ? null : (
        <AmountSheet
          title={nameOf(at.material)}
          value={{ grams: at.quantity?.unit === 'g' ? at.quantity.figure : null, how: at.how }}
          onClose={() => setEditing(undefined)}
          onDone={(a) => {
            set(editing, { quantity: a.grams === null ? null : { figure: a.grams, unit: 'g' }, how: a.how });
            setEditing(undefined);
          }}
        />
      )}
    </>
  );
}

const any = 'any';

interface LotProps {
  readonly line: WeighedLine;
  readonly name: string;
  readonly onChange: (lot: string | null) => void;
}

/** Which lot it was. To choose one of several says that it was this one. */
function LotOf({ line, name, onChange }: LotProps) {
  const { lookup } = useNight();
  const among = (line.orLots ?? []).length === 0 || line.lot === null ? [] : [line.lot, ...(line.orLots ?? [])];
  const lots = lookup.state
    .find('lot', 'material', line.material)
    .filter((l) => l.type === 'received' || l.type === 'placeholder' || l.type === 'made')
    .slice(-12);
  return (
    <select
      className="button"
      aria-label={`${name}: lot`}
      value={among.length > 0 ? any : (line.lot ?? '')}
      onChange={({ target: { value } }) => {
        if (value !== any) onChange(value === '' ? null : value);
      }}
    >
      {among.length > 0 ? <option value={any}>any of {among.map((lot) => lotText(lookup, lot)).join('; ')}</option> : null}
      <option value="">lot not known</option>
      {lots.map((lot) => (
        <option key={lot.id} value={lot.id}>
          {lotText(lookup, lot.id)}
        </option>
      ))}
    </select>
  );
}

const lotText = (lookup: Lookup, lot: string): string => {
  const said = saidOf(lookup, lot);
  return `${codeText(codeOf(lookup, lot))}${said === null ? '' : `, ${troubleText(said)}`}`;
};
