import { useState } from 'react';
import { useTable } from '../../shared/tablet-context';
import { useAct } from '../../shared/use-act';
import { Button, Choice, Field, Notice, NumberPad, Sheet } from '../../shared/ui';
import { useWho } from '../../shared/who';
import { goodPin, roleOptions, type GivenRole } from './roles';
import { setPin } from './set-pin';

/** Somebody joins: a name, what they may do, and a PIN. */
export function NewPerson({ onDone, onClose }: { readonly onDone: () => Promise<void>; readonly onClose: () => void }) {
  const [name, setName] = useState('');
  const [role, setRole] = useState<GivenRole | null>(null);
  const [pin, setNewPin] = useState('');
  const [joined, setJoined] = useState<string>();
  const [problem, setProblem] = useState<{ readonly title: string; readonly detail: string }>();
  const { act, busy, trouble } = useAct();
  const { tablet } = useTable();
  const { ask } = useWho();
  const join = async (): Promise<string | undefined> => {
    if (joined !== undefined) return joined; // only the PIN was not taken: nobody joins twice
    const recorded = await act({ kind: 'person-joined', payload: {}, words: { name } });
    if (!recorded) return undefined;
    if (role !== null) await act({ kind: 'role-given', payload: { person: recorded.id, role, site: null, until: null } });
    setJoined(recorded.id);
    await tablet.refresh();
    return recorded.id;
  };
  const save = async (): Promise<void> => {
    const person = await join();
    if (person === undefined) return;
    const against = await setPin(ask, person, pin);
    setProblem(against);
    if (!against) await onDone();
  };
  const sayWhy = problem ? (
    <Notice tone="bad" title={problem.title}>
      <p>{problem.detail}</p>
    </Notice>
  ) : null;
  return (
    <Sheet title="Somebody joins" onClose={onClose}>
      {trouble}
      {sayWhy}
      <Field label="Name, as it stands on the tile to tap" value={name} onChange={setName} maxLength={80} required />
      <Choice label="What they do" value={role} onChange={setRole} options={roleOptions} />
      <NumberPad
        label="A PIN that they will know: four to eight figures, no run and no year"
        value={pin}
        onChange={setNewPin}
        decimals={false}
        hide
        maxDigits={8}
        autoFocus={false}
      />
      <div className="buttons">
        <Button look="go" disabled={busy || name.trim() === '' || role === null || !goodPin(pin)} onClick={() => void save()}>
          They join
        </Button>
      </div>
    </Sheet>
  );
}
