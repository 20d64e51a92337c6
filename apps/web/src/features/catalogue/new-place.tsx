import { collections, phrase } from '@bakehouse/records';
import { useState } from 'react';
import { placesOf } from '../../shared/in-force';
import { useTabletState } from '../../shared/tablet-context';
import { Button, Choice, Field, Sheet } from '../../ui';
import { useProvenAct } from '../../shared/use-proven-act';

interface Props {
  readonly onDone: () => void;
  readonly onClose: () => void;
}

const placeTypes = collections.place.row.shape.type.options;
const instrumentTypes = collections.instrument.row.shape.type.options;

/** Equipment, a station or a store comes into use; it may stand within another. */
export function NewPlace({ onDone, onClose }: Props) {
  const [name, setName] = useState('');
  const [type, setType] = useState<(typeof placeTypes)[number]>('station');
  const [within, setWithin] = useState('');
  const { snapshot } = useTabletState();
  const { act, busy, trouble } = useProvenAct();
  const save = async (): Promise<void> => {
    if (await act({ kind: 'place-in-use', payload: { name: name.trim(), type, within: within === '' ? null : within } })) onDone();
  };
  return (
    <Sheet title="One more place" onClose={onClose}>
      {trouble}
      <Field label="Name" value={name} onChange={setName} maxLength={80} required />
      <Choice
        label="What it is"
        value={type}
        onChange={setType}
        options={placeTypes.map((value) => ({ value, text: phrase(`place.${value}`) }))}
      />
      <Choice
        label="Stands within"
        value={within}
        onChange={setWithin}
        options={[{ value: '', text: 'nothing' }, ...placesOf(snapshot, placeTypes).map((p) => ({ value: p.id, text: p.name }))]}
      />
      <div className="buttons">
        <Button look="go" disabled={busy || name.trim() === ''} onClick={() => void save()}>
          In use from now on
        </Button>
      </div>
    </Sheet>
  );
}

/** A probe, scale or sensor comes into use, with its accuracy. */
export function NewInstrument({ onDone, onClose }: Props) {
  const [name, setName] = useState('');
  const [type, setType] = useState<(typeof instrumentTypes)[number]>('probe');
  const [halfWidth, setHalfWidth] = useState('');
  const { act, busy, trouble } = useProvenAct();
  const unit = type === 'scale' ? 'g' : 'degC';
  const figure = /^\d{1,4}(\.\d{1,3})?$/.test(halfWidth.trim());
  const save = async (): Promise<void> => {
    if (await act({ kind: 'instrument-in-use', payload: { name: name.trim(), type, unit, halfWidth: halfWidth.trim() } })) onDone();
  };
  return (
    <Sheet title="One more instrument" onClose={onClose}>
      {trouble}
      <Field label="Name" value={name} onChange={setName} maxLength={80} required />
      <Choice
        label="What it is"
        value={type}
        onChange={setType}
        options={instrumentTypes.map((value) => ({ value, text: phrase(`instrument.${value}`) }))}
      />
      <Field
        label={`Accuracy (±), in ${unit === 'g' ? 'grams' : '°C'}`}
        value={halfWidth}
        onChange={setHalfWidth}
        required
        hint="From its certificate or its last checks; never nothing. Readings closer to a limit than this cannot be told."
      />
      <div className="buttons">
        <Button look="go" disabled={busy || name.trim() === '' || !figure} onClick={() => void save()}>
          In use from now on
        </Button>
      </div>
    </Sheet>
  );
}
