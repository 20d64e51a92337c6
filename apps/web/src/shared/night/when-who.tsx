import { systemClock, type Draft } from '@bakehouse/offline';
import { useState } from 'react';
import { useTable, useTabletState } from '../tablet-context';
import { wallTime } from '../format';
import { Choice, Field } from '../ui';

export type Told = Pick<Draft, 'at' | 'precision' | 'doneBy'>;

/** When it was and who did it: now and whoever is here, unless somebody says otherwise. */
export function WhenWho({ value, onChange }: { readonly value: Told; readonly onChange: (told: Told) => void }) {
  const { person } = useTable();
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
    const at = instantOf(text, zone);
    onChange(at ? { ...rest, at, precision: 'about' } : rest);
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

/** The last time that the clock on the wall showed this. */
function instantOf(text: string, zone: string): Date | undefined {
  const minutes = minutesOf(text);
  if (minutes === undefined) return undefined;
  const now = systemClock.now();
  const shown = minutesOf(wallTime(now.toISOString(), zone)) ?? 0;
  const guess = new Date(now.getTime() - ((shown - minutes + 1440) % 1440) * 60_000);
  const off = (minutesOf(wallTime(guess.toISOString(), zone)) ?? minutes) - minutes; // not zero only over a change of the clocks
  return new Date(guess.getTime() - off * 60_000);
}

function minutesOf(text: string): number | undefined {
  const [, hours, minutes] = /^(\d{1,2}):(\d{2})$/.exec(text) ?? [];
  return hours === undefined || minutes === undefined ? undefined : Number(hours) * 60 + Number(minutes);
}
