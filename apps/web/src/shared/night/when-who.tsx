import { lastShown } from '@bakehouse/kernel';
import type { NewEntry } from '@bakehouse/records';
import { useState } from 'react';
import { useTable, useTabletState } from '../tablet-context';
import { wallTime } from '../format';
import { Choice, Field } from '../../ui';

/** When something happened and who did it, as far as somebody said. */
export type WhenAndWho = Pick<NewEntry, 'at' | 'precision' | 'doneBy'>;

/** When it was and who did it: now and the person signed on, unless somebody says otherwise. */
export function WhenWho({ value, onChange }: { readonly value: WhenAndWho; readonly onChange: (value: WhenAndWho) => void }) {
  const { person, tablet } = useTable();
  const {
    snapshot,
    site: { zone },
  } = useTabletState();
  const [open, setOpen] = useState(false);
  const left = new Set(snapshot.personLeft.map((l) => l.person));
  const people = snapshot.person.filter((p) => !left.has(p.id) && p.name !== null);
  const doer = value.doneBy ?? person.id;
  const doerName = people.find((p) => p.id === doer)?.name ?? person.name;
  const time = value.at ? wallTime(value.at.toISOString(), zone) : '';
  if (!open) {
    return (
      <p className="when-who">
        {value.at ? `About ${time}` : 'Now'}, done by {doerName}.{' '}
        <button type="button" className="button quiet" onClick={() => setOpen(true)}>
          Change
        </button>
      </p>
    );
  }
  const setTime = (text: string): void => {
    const { at: _at, precision: _precision, ...rest } = value;
    const at = lastShown(text, zone, tablet.now().toISOString());
    onChange(at === undefined ? rest : { ...rest, at: new Date(at), precision: 'about' });
  };
  return (
    <div className="when-who open">
      <Field label="About what time? Leave it empty for now" type="time" value={time} onChange={setTime} />
      <Choice
        label="Done by"
        value={doer}
        onChange={(doneBy) => onChange({ ...value, doneBy })}
        options={people.map((p) => ({ value: p.id, text: p.name ?? '' }))}
      />
    </div>
  );
}
