import type { Row } from '@bakehouse/domain';
import { useState } from 'react';
import { useLocation } from 'wouter';
import { formulasInUse } from '../../shared/in-force';
import { office } from '../../shared/office-paths';
import { useNow, useTabletState } from '../../shared/tablet-context';
import { useAct } from '../../shared/use-act';
import { useWho } from '../../shared/who';
import { Button, Notice, Section, Sheet } from '../../shared/ui';

/** A formula is not baked any more, for whoever looks after formulas; asked once more before it is so. */
export function PutAway({ version: { formula, name } }: { readonly version: Row<'formulaVersion'> }) {
  const { person } = useWho();
  const { connected, snapshot } = useTabletState();
  const inUse = formulasInUse(snapshot, useNow(60_000)).some((v) => v.formula === formula);
  const [asking, setAsking] = useState(false);
  const { act, busy, trouble } = useAct();
  const [, go] = useLocation();
  if (!inUse || !person.permissions.includes('manage.formulas')) return null;
  const putAway = async (): Promise<void> => {
    const done = await act({ kind: 'formula-put-away', payload: { formula } });
    if (done?.ok) go(office.formulas);
  };
  return (
    <Section title="Not baked any more">
      {connected === false ? (
        <Notice tone="ask" title="Not connected">
          <p>This is decided on line. It can be done when the network is back.</p>
        </Notice>
      ) : null}
      <div className="buttons">
        <Button look="quiet" disabled={connected === false} onClick={() => setAsking(true)}>
          Put this formula away
        </Button>
      </div>
      {asking ? (
        <Sheet title={`Put ${name} away`} onClose={() => setAsking(false)}>
          {trouble}
          <p>
            It is not offered at the table any more. Its versions stay readable, what is being made goes on, and a new version takes it up
            again.
          </p>
          <div className="buttons">
            <Button look="go" disabled={busy} onClick={() => void putAway()}>
              Put it away
            </Button>
          </div>
        </Sheet>
      ) : null}
    </Section>
  );
}
