import { lastShown } from '@bakehouse/kernel';
import type { NewEntry } from '@bakehouse/records';
import { useState } from 'react';
import { useTable, useTabletState } from '../tablet-context';
import { wallTime } from '../format';
import { Choice, Field } from '../../ui';

/** When something happened and who did it, as far as somebody said. */
export type WhenAndWho = Pick<NewEntry, 'at' | 'precision' | 'doneBy'>;

interface Props {
  readonly value: WhenAndWho;
  readonly onChange: (value: WhenAndWho) => void;
}

/** When it was and who did it: now and the person signed on, unless somebody says otherwise. */
export function WhenWho({ value, onChange }: Props) {
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
        {value.at ? `${value.precision === 'exact' ? 'At' : 'About'} ${time}` : 'Now'}, by {doerName}{' '}
        <button type="button" className="button quiet" onClick={() => setOpen(true)}>
          Change
        </button>
      </p>
    );
  }
  return (
    <div className="when-who open">
      <When value={value} onChange={onChange} time={time} />
      <Choice
        label="Done by"
        value={doer}
        onChange={(doneBy) => onChange({ ...value, doneBy })}
        options={people.map((p) => ({ value: p.id, text: p.name ?? '' }))}
      />
    </div>
  );
}

const agos = ['0', '5', '15', '30'] as const;

/** Now, so many minutes ago, or a time. What is remembered is told as about that time, unless somebody knows it to the minute. */
function When({ value, onChange, time }: Props & { readonly time: string }) {
  const { tablet } = useTable();
  const { zone } = useTabletState().site;
  const [ago, setAgo] = useState<(typeof agos)[number] | null>(value.at ? null : '0');
  const set = (at: Date | undefined): void => {
    const { at: _at, precision = 'about', ...rest } = value;
    onChange(at === undefined ? rest : { ...rest, at, precision });
  };
  const choose = (minutes: (typeof agos)[number]): void => {
    setAgo(minutes);
    set(minutes === '0' ? undefined : new Date(tablet.now().getTime() - Number(minutes) * 60_000));
  };
  const setTime = (text: string): void => {
    const at = lastShown(text, zone, tablet.now().toISOString());
    setAgo(at === undefined ? '0' : null);
    set(at === undefined ? undefined : new Date(at));
  };
  return (
    <>
      <Choice label="When" value={ago} onChange={choose} options={agos.map((m) => ({ value: m, text: m === '0' ? 'Now' : `−${m} min` }))} />
      <Field label="At what time" type="time" value={time} onChange={setTime} />
      {value.at ? (
        <Choice
          label="How well it is known"
          value={value.precision ?? 'exact'}
          onChange={(precision) => onChange({ ...value, precision })}
          options={[
            { value: 'about', text: 'about, as remembered' },
            { value: 'exact', text: 'to the minute' },
          ]}
        />
      ) : null}
    </>
  );
}
