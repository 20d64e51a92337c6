import { useState } from 'react';
import { useTable } from './tablet-context';
import { Button, Field, Sheet } from './ui';
import { useAct } from './use-act';

interface Props {
  readonly lot: string;
  readonly name: string;
  readonly onDone?: () => void;
}

/** Sets a lot aside, and with it what was and will be made of it. A tapped name may: it is the safe way, off line too. Lifting it is signed. */
export function HoldLot({ lot, name, onDone }: Props) {
  const [open, setOpen] = useState(false);
  const [because, setBecause] = useState('');
  const { act, busy, trouble } = useAct();
  const { tablet } = useTable();
  const save = async (): Promise<void> => {
    if (!(await act({ kind: 'hold-placed', payload: { lot, deviation: null }, words: { because: because.trim() } }))) return;
    setOpen(false);
    setBecause('');
    await tablet.refresh();
    onDone?.();
  };
  return (
    <>
      <Button label={`Put ${name} on hold`} onClick={() => setOpen(true)}>
        Put on hold
      </Button>
      {open ? (
        <Sheet title={`Put ${name} on hold?`} onClose={() => setOpen(false)}>
          {trouble}
          <p>
            Every tablet and paper will say that it is not to be used, sold or sent out, and nor is what was made of it, until somebody
            lifts the hold with a signature. Put it where nobody takes it, marked.
          </p>
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
