import { isAlike, type Row } from '@bakehouse/records';
import { useState } from 'react';
import { dayTime } from '../../shared/trace/words';
import { useTable, useTabletState } from '../../shared/tablet-context';
import { useAct } from '../../shared/use-act';
import { Button, Choice, Field, Sheet } from '../../ui';

/** None of those with the same code that have come. */
const another = 'another';

type Lot = Row<'lot'>;

/** What it may be the same as: of a lot that was used without a code, those that have the code that is typed, else the last that came of its material. */
function offeredFor(
  lots: readonly Lot[],
  own: Lot | undefined,
  code: string,
): { readonly offered: readonly Lot[]; readonly fitting: boolean } {
  const known = lots
    .filter((l) => l.id !== own?.id && l.type === 'received' && l.code !== null && l.material === own?.material)
    .sort((a, b) => (a.at < b.at ? 1 : -1));
  const fit = own?.delivery === null ? known.filter((l) => isAlike({ ...own, code }, l)) : [];
  return fit.length > 0 ? { offered: fit, fitting: true } : { offered: known.slice(0, 6), fitting: false };
}

/** A lot that was not identified gets its code, or turns out to be one that is known: the link turns from unknown to certain. */
export function NameLot({
  lot,
  name,
  onClose,
  onDone,
}: {
  readonly lot: string;
  readonly name: string;
  readonly onClose: () => void;
  readonly onDone: () => void;
}) {
  const [code, setCode] = useState('');
  const [same, setSame] = useState('');
  const { act, busy, trouble } = useAct();
  const { tablet } = useTable();
  const {
    snapshot,
    site: { zone },
  } = useTabletState();
  const own = snapshot.lot.find((l) => l.id === lot);
  const { offered, fitting } = offeredFor(snapshot.lot, own, code.trim());
  const chosen = offered.some((l) => l.id === same) || (same === another && fitting) ? same : '';
  const save = async (): Promise<void> => {
    const payload = {
      lot,
      code: code.trim() === '' ? null : code.trim(),
      same: chosen === '' || chosen === another ? null : chosen,
      delivery: own?.delivery ?? null,
    };
    if (!(await act({ kind: 'lot-identified', payload }))) return;
    await tablet.refresh();
    onDone();
  };
  return (
    <Sheet title={`${name}: what is its code?`} onClose={onClose}>
      {trouble}
      <p>Everything that it went into is then found by this code. The record keeps that it was not known before.</p>
      <Field label="The supplier’s lot code" value={code} onChange={setCode} maxLength={60} />
      {offered.length === 0 ? null : (
        <Choice
          label={fitting ? 'This code has come: which one is it?' : 'Or it is the same as'}
          value={fitting && chosen === '' ? null : chosen}
          onChange={setSame}
          options={[
            ...(fitting ? [] : [{ value: '', text: 'none of these' }]),
            ...offered.map((l) => ({ value: l.id, text: `${l.code ?? ''}, came ${dayTime(l.at, zone)}` })),
            ...(fitting ? [{ value: another, text: 'another lot with the same code' }] : []),
          ]}
        />
      )}
      {chosen === another ? (
        <p>
          Record its delivery too, and then name it as that lot. Until then it may be any of these: what was made of it waits, and a recall
          of one of them reaches it.
        </p>
      ) : null}
      <div className="buttons">
        <Button look="go" disabled={busy || (chosen === '' && (fitting || code.trim() === ''))} onClick={() => void save()}>
          Record it
        </Button>
      </div>
    </Sheet>
  );
}
