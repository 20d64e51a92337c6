import { quantityText } from '@bakehouse/kernel';
import { phrase, type PayloadOf } from '@bakehouse/records';
import { codeOf, saidOf, type Lookup } from '@bakehouse/views';
import { useState } from 'react';
import { troubleText } from '../../shared/concerns';
import { mass } from '../../shared/format';
import { Button } from '../../shared/ui';
import { AmountSheet } from './amount-sheet';
import { codeText } from '../../shared/night/code-text';
import { useNight } from '../../shared/night/use-night';

export type WeighedLine = PayloadOf<'weighed-in'>['lines'][number];

/** Lines that were weighed in, to be corrected: amounts, or another lot of the same material. */
export function WeighedLines({
  lines,
  onChange,
}: {
  readonly lines: readonly WeighedLine[];
  readonly onChange: (lines: readonly WeighedLine[]) => void;
}) {
  const { lookup, state } = useNight();
  const [editing, setEditing] = useState<number>();
  const at = editing === undefined ? undefined : lines[editing];
  const nameOf = (material: string): string => state.snapshot.specification.find((s) => s.material === material)?.name ?? '';
  const set = (i: number, change: Partial<WeighedLine>): void => onChange(lines.map((l, j) => (j === i ? { ...l, ...change } : l)));
  const lotsOf = (material: string) =>
    lookup.state
      .find('lot', 'material', material)
      .filter((l) => l.type === 'received' || l.type === 'placeholder' || l.type === 'made')
      .slice(-12);
  return (
    <>
      <table className="lines">
        <tbody>
          {lines.map((l, i) => (
            <tr key={`${l.material} ${i}`}>
              <td>{nameOf(l.material)}</td>
              <td className="amount">
                <Button label={`${nameOf(l.material)}: change the amount`} onClick={() => setEditing(i)}>
                  {l.quantity === null
                    ? 'how much?'
                    : l.quantity.unit === 'g'
                      ? mass(Number(l.quantity.figure) * 1000)
                      : quantityText(l.quantity.figure, l.quantity.unit)}
                </Button>
              </td>
              <td>{phrase(`how.${l.how}`)}</td>
              <td>
                <select
                  className="button"
                  aria-label={`${nameOf(l.material)}: lot`}
                  value={isAny(l) ? any : (l.lot ?? '')}
                  onChange={(event) => {
                    if (event.target.value !== any)
                      set(i, { lot: event.target.value === '' ? null : event.target.value, orLots: undefined });
                  }}
                >
                  {isAny(l) ? (
                    <option value={any}>any of {[l.lot ?? '', ...(l.orLots ?? [])].map((lot) => lotText(lookup, lot)).join('; ')}</option>
                  ) : null}
                  <option value="">lot not known</option>
                  {lotsOf(l.material).map((lot) => (
                    <option key={lot.id} value={lot.id}>
                      {lotText(lookup, lot.id)}
                    </option>
                  ))}
                </select>
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
const isAny = (l: WeighedLine): boolean => (l.orLots ?? []).length > 0;

const lotText = (lookup: Lookup, lot: string): string => {
  const said = saidOf(lookup, lot);
  return `${codeText(codeOf(lookup, lot))}${said === null ? '' : `, ${troubleText(said)}`}`;
};
