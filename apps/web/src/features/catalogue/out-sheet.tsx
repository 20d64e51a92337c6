import { ifInstrumentOut } from '@bakehouse/contracts';
import { countText } from '@bakehouse/kernel';
import type { NewEntry } from '@bakehouse/records';
import { useTabletState } from '../../shared/tablet-context';
import { dayTime } from '../../shared/trace/words';
import { Button, Notice, Sheet } from '../../ui';
import { Shown, useLoaded } from '../../shared/use-loaded';
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
      {thing.kind === 'instrument-out-of-use' ? <IfOut instrument={thing.id} /> : null}
      <div className="buttons">
        <Button look="grave" disabled={busy} onClick={() => void out()}>
          Out of use from now on
        </Button>
      </div>
    </Sheet>
  );
}

/** The readings since its last check cannot be trusted once it is gone, unless somebody checks it first. */
function IfOut({ instrument }: { readonly instrument: string }) {
  const { site } = useTabletState();
  const loaded = useLoaded('/sites/{site}/instruments/{instrument}/if-out', ifInstrumentOut, {
    params: { path: { site: site.id, instrument } },
  });
  return (
    <Shown of={loaded}>
      {({ readings, lastCheck, batches }) =>
        readings === 0 ? null : (
          <Notice tone="bad" title="Check it first: it was not checked since it was read with">
            <p>
              {countText(readings, 'reading')} since{' '}
              {lastCheck === null ? 'it came into use' : `its last check, ${dayTime(lastCheck, site.zone)},`} will be in doubt if it goes
              out of use unchecked: each is to be confirmed before the food leaves by rule.
            </p>
            {batches.length === 0 ? null : (
              <>
                <p>Food that may still be in the house and rests on them:</p>
                <ul>
                  {batches.map((b) => (
                    <li key={b.id}>
                      {b.name}, {b.code}
                    </li>
                  ))}
                </ul>
              </>
            )}
          </Notice>
        )
      }
    </Shown>
  );
}
