import type { NewEntry } from '@bakehouse/records';
import { Button, Sheet } from '../../shared/ui';
import { useProvenAct } from './use-proven-act';

/** Something of the site that can go out of use. */
export interface Thing {
  readonly id: string;
  readonly name: string;
  readonly about: string;
  readonly kind: 'place-out-of-use' | 'instrument-out-of-use';
}

/** Asked once more before it is so. */
export function OutSheet({ thing, onDone, onClose }: { readonly thing: Thing; readonly onDone: () => void; readonly onClose: () => void }) {
  const { act, busy, trouble } = useProvenAct();
  const entry: NewEntry =
    thing.kind === 'place-out-of-use'
      ? { kind: thing.kind, payload: { place: thing.id } }
      : { kind: thing.kind, payload: { instrument: thing.id } };
  const out = async (): Promise<void> => {
    if (await act(entry)) onDone();
  };
  return (
    <Sheet title={thing.name} onClose={onClose}>
      {trouble}
      <p>{thing.about}</p>
      <p>Out of use, it is not offered any more. What was done there and measured with it stays readable.</p>
      <div className="buttons">
        <Button look="grave" disabled={busy} onClick={() => void out()}>
          Out of use from now on
        </Button>
      </div>
    </Sheet>
  );
}
