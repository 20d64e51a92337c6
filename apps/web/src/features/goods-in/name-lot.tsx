import { useState } from 'react';
import { dayTime } from '../../shared/trace/words';
import { useTable, useTabletState } from '../../shared/tablet-context';
import { useAct } from '../../shared/use-act';
import { Button, Choice, Field, Sheet } from '../../shared/ui';

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
  const known = snapshot.lot
    .filter((l) => l.id !== lot && l.type === 'received' && l.code !== null && l.material === own?.material)
    .sort((a, b) => (a.at < b.at ? 1 : -1))
    .slice(0, 6);
  const save = async (): Promise<void> => {
    const payload = {
      lot,
      code: code.trim() === '' ? null : code.trim(),
      same: same === '' ? null : same,
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
      {known.length === 0 ? null : (
        <Choice
          label="Or it is the same as"
          value={same}
          onChange={setSame}
          options={[
            { value: '', text: 'none of these' },
            ...known.map((l) => ({ value: l.id, text: `${l.code ?? ''}, came ${dayTime(l.at, zone)}` })),
          ]}
        />
      )}
      <div className="buttons">
        <Button look="go" disabled={busy || (code.trim() === '' && same === '')} onClick={() => void save()}>
          Record it
        </Button>
      </div>
    </Sheet>
  );
}
