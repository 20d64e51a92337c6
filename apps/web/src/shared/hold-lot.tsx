import { useState } from 'react';
import { useTable } from './tablet-context';
import { TickedLots } from './ticked-lots';
import { Button, Field, Sheet } from '../ui';
import { useAct } from './use-act';

interface Props {
  readonly lot: string;
  readonly name: string;
  /** Others of the same lot code: they are held as well, each by a hold of its own, unless somebody takes one off. */
  readonly alike?: readonly { readonly lot: string; readonly text: string }[];
  readonly onDone?: () => void;
}

/** Sets a lot aside, and with it what was and will be made of it. A tapped name may: it is the safe way, off line too. Lifting it is signed. */
export function HoldLot({ lot, name, alike = [], onDone }: Props) {
  const [open, setOpen] = useState(false);
  const [because, setBecause] = useState('');
  const [without, setWithout] = useState<readonly string[]>([]);
  const { act, busy, trouble } = useAct();
  const { tablet } = useTable();
  const save = async (): Promise<void> => {
    for (const one of [lot, ...alike.flatMap((a) => (without.includes(a.lot) ? [] : a.lot))])
      if (!(await act({ kind: 'hold-placed', payload: { lot: one, deviation: null }, words: { because: because.trim() } }))) return;
    setOpen(false);
    setBecause('');
    await tablet.refresh();
    onDone?.();
  };
  return (
    <>
      <Button needs="decide.goods" label={`Put on hold: ${name}`} onClick={() => setOpen(true)}>
        Put on hold
      </Button>
      {open ? (
        <Sheet title={`Put ${name} on hold?`} onClose={() => setOpen(false)}>
          {trouble}
          <p>
            Every tablet and paper will say that it is not to be used, sold or sent out, and nor is what was made of it, until somebody
            lifts the hold with a signature. Put it where nobody takes it, marked.
          </p>
          {alike.length === 0 ? null : (
            <TickedLots label="The same lot code: put these on hold too" lots={alike} without={without} onChange={setWithout} />
          )}
          <Field label="Why" value={because} onChange={setBecause} lines={2} maxLength={500} required />
          <div className="buttons">
            <Button look="grave" disabled={busy || because.trim() === ''} onClick={() => void save()}>
              Put it on hold
            </Button>
          </div>
        </Sheet>
      ) : null}
    </>
  );
}
