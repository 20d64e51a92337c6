import { useState } from 'react';
import type { Trouble } from '../../shared/trouble-of';
import { usePinned } from '../../shared/use-pinned';
import { useSigned } from '../../shared/use-signed';
import { Button, Choice, Field, NumberPad, Sheet } from '../../ui';
import { useWho } from '../../shared/who';
import { goodPin, roleOptions, type GivenRole } from './roles';
import { setPin } from '../../shared/set-pin';

/** Somebody joins: a name, what they may do, and a PIN. */
export function NewPerson({ onDone, onClose }: { readonly onDone: () => Promise<void>; readonly onClose: () => void }) {
  const [name, setName] = useState('');
  const [role, setRole] = useState<GivenRole | null>(null);
  const [pin, setNewPin] = useState('');
  const [joined, setJoined] = useState<string>();
  const [given, setGiven] = useState(false);
  const signed = useSigned();
  const { withPin, busy, pad } = usePinned();
  const { ask } = useWho();
  const save = async (own: string): Promise<Trouble | undefined> => {
    let person = joined; // where only a later step was not taken, nobody joins twice
    if (person === undefined) {
      const result = await signed(own, { kind: 'person-joined', payload: {}, words: { name } });
      if (result.as === 'trouble') return result.trouble;
      person = result.saved.id;
      setJoined(person);
    }
    if (role !== null && !given) {
      const result = await signed(own, { kind: 'role-given', payload: { person, role, site: null, until: null } });
      if (result.as === 'trouble') return result.trouble;
      setGiven(true);
    }
    const against = await setPin(ask, person, pin, own);
    if (!against) await onDone();
    return against;
  };
  return (
    <Sheet title="Somebody joins" onClose={onClose}>
      <Field label="Name, as it stands on the tile to tap" value={name} onChange={setName} maxLength={80} required />
      <Choice label="What they do" value={role} onChange={setRole} options={roleOptions} />
      <NumberPad
        label="A first PIN: four to eight figures, no run and no year. They choose their own in its place"
        value={pin}
        onChange={setNewPin}
        decimals={false}
        hide
        maxDigits={8}
        autoFocus={false}
      />
      <div className="buttons">
        <Button
          look="go"
          disabled={busy || name.trim() === '' || role === null || !goodPin(pin)}
          onClick={() => withPin('You add this person and give them this role.', save)}
        >
          They join
        </Button>
      </div>
      {pad}
    </Sheet>
  );
}
