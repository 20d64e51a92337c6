import type { MakeView } from '@bakehouse/views';
import { useState } from 'react';
import { Button, figureOf, NumberPad, Sheet } from '../../ui';
import { useAct } from '../../shared/use-act';

/** A filling, preferment or topping is done: what it weighs now, if anybody put it on the scale. */
export function EndMake({ make }: { readonly make: MakeView }) {
  const [open, setOpen] = useState(false);
  const [typed, setTyped] = useState('');
  const { act, busy, trouble } = useAct();
  const figure = figureOf(typed);
  const end = async (weighed: boolean): Promise<void> => {
    const quantity = weighed && figure !== undefined ? ({ figure, unit: 'g' } as const) : null;
    if (await act({ kind: 'make-ended', payload: { make: make.id, quantity, how: quantity === null ? 'by-recipe' : 'weighed' } }))
      setOpen(false);
  };
  return (
    <>
      <div className="buttons">
        <Button onClick={() => setOpen(true)}>It is finished</Button>
      </div>
      {open ? (
        <Sheet title={`${make.name} is finished`} onClose={() => setOpen(false)}>
          {trouble}
          <NumberPad label="What it weighs now" unit="g" value={typed} onChange={setTyped} onEnter={() => void end(true)} />
          <div className="buttons">
            <Button look="go" disabled={busy || figure === undefined} onClick={() => void end(true)}>
              Finished
            </Button>
            <Button disabled={busy} onClick={() => void end(false)}>
              Not weighed
            </Button>
          </div>
        </Sheet>
      ) : null}
    </>
  );
}
