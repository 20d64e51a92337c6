import { useState } from 'react';
import { Pick } from '../../shared/drafts/fields';
import { formulasInUse } from '../../shared/in-force';
import { useNow, useTabletState } from '../../shared/tablet-context';
import { useAct } from '../../shared/use-act';
import { Button, For, Section, Sheet } from '../../ui';

/** A formula that is not baked any more; asked once more before it is so. */
export const Retire = () => (
  <For needs="manage.formulas">
    <RetireOne />
  </For>
);

function RetireOne() {
  const { connected, snapshot } = useTabletState();
  const formulas = formulasInUse(snapshot, useNow(60_000));
  const [formula, setFormula] = useState<string | null>(null);
  const [asking, setAsking] = useState(false);
  const { act, busy, trouble } = useAct();
  const chosen = formulas.find((f) => f.formula === formula);
  const retire = async (): Promise<void> => {
    if (formula === null) return;
    const done = await act({ kind: 'formula-retired', payload: { formula } });
    if (!done) return;
    setAsking(false);
    setFormula(null);
  };
  return (
    <Section title="Retire a formula">
      <Pick
        label="Which"
        value={chosen?.formula ?? null}
        nothing="choose a formula"
        options={formulas.map((f) => ({ value: f.formula, text: f.name }))}
        onChange={setFormula}
      />
      <div className="buttons">
        <Button look="quiet" disabled={!chosen || connected === false} onClick={() => setAsking(true)}>
          Retire this formula
        </Button>
      </div>
      {connected === false ? <p className="hint">This is decided on line. It can be done when the network is back.</p> : null}
      {asking && chosen ? (
        <Sheet title={`Retire ${chosen.name}?`} onClose={() => setAsking(false)}>
          {trouble}
          <p>
            It is not offered at the table any more. Its versions stay readable, what is being made goes on, and a new version takes it up
            again.
          </p>
          <div className="buttons">
            <Button look="go" disabled={busy} onClick={() => void retire()}>
              Retire it
            </Button>
          </div>
        </Sheet>
      ) : null}
    </Section>
  );
}
