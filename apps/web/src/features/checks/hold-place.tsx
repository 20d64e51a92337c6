import { dayBounds, lastShown, localDay, minutesAfter, wallTime } from '@bakehouse/kernel';
import { placeType } from '@bakehouse/records';
import { useState } from 'react';
import { HeldPlaces } from '../../shared/held-places';
import { placesOf } from '../../shared/in-force';
import { paths } from '../../shared/night/paths';
import { useNight } from '../../shared/night/use-night';
import { useTable } from '../../shared/tablet-context';
import { useAct } from '../../shared/use-act';
import { Button, Caution, Choice, Empty, Field, Screen, Section } from '../../ui';

/** A place is put on hold, from when on and until when: everything that was there then, by the records, is on hold, and what was made of it since. */
export function HoldPlace({ preset }: { readonly preset: string | null }) {
  const { state } = useNight();
  const { tablet } = useTable();
  const { zone } = state.site;
  const now = tablet.now().toISOString();
  const [place, setPlace] = useState(preset);
  const [day, setDay] = useState(localDay(now, zone));
  const [time, setTime] = useState(wallTime(now, zone));
  const [over, setOver] = useState<'open' | 'now'>('open');
  const [because, setBecause] = useState('');
  const { act, busy, trouble } = useAct();
  const from = instantOf(day, time, zone);
  const ahead = from !== undefined && from > now;
  const save = async (): Promise<void> => {
    if (place === null || from === undefined) return;
    const payload = { place, from, until: over === 'open' ? null : tablet.now().toISOString() };
    if (!(await act({ kind: 'place-put-on-hold', payload, words: { because: because.trim() } }))) return;
    setBecause('');
    await tablet.refresh();
  };
  const list = placesOf(state.snapshot, placeType.options);
  return (
    <Screen
      title="Put a place on hold"
      back={{ to: paths.today, text: 'Today’s bake' }}
      actions={
        <Button
          look="grave"
          needs="decide.goods"
          disabled={busy || place === null || from === undefined || ahead || because.trim() === ''}
          onClick={() => void save()}
        >
          Put it on hold
        </Button>
      }
    >
      {trouble}
      <p>
        For a broken light over the bench, moths in a store, a leak into a bin: everything that was there by the records is on hold with
        what was made of it since, on every tablet and paper, until somebody decides on it lot by lot, signed. What stands within the place
        is meant as well.
      </p>
      {list.length === 0 ? (
        <Empty>No place is in use here yet; it is set up in the office.</Empty>
      ) : (
        <Choice label="Which place?" value={place} onChange={setPlace} options={list.map((p) => ({ value: p.id, text: p.name }))} />
      )}
      <Field label="What was found there?" value={because} onChange={setBecause} lines={2} maxLength={500} required />
      <Since day={day} onDay={setDay} time={time} onTime={setTime} ahead={ahead} />
      <Choice
        label="And from now on?"
        value={over}
        onChange={setOver}
        options={[
          { value: 'open', text: 'what comes there is on hold too, until it may be used again' },
          { value: 'now', text: 'it is put right: only what was there until now' },
        ]}
      />
      <NotFound />
      <Section title="Places on hold">
        <HeldPlaces place={null} onDone={() => void tablet.refresh()} />
      </Section>
      <Caution />
    </Screen>
  );
}

const NotFound = () => (
  <p className="hint">
    The records know where food was carried, opened, counted, mixed, proved, cooled or baked. What nobody recorded there is not found: look
    for yourself, and put it on hold by its name.
  </p>
);

interface SinceProps {
  readonly day: string;
  readonly onDay: (day: string) => void;
  readonly time: string;
  readonly onTime: (time: string) => void;
  readonly ahead: boolean;
}

const Since = ({ day, onDay, time, onTime, ahead }: SinceProps) => (
  <>
    <Field label="Since which day may food there be affected?" type="date" value={day} onChange={onDay} />
    <Field
      label="Since what time?"
      type="time"
      value={time}
      onChange={onTime}
      hint={
        ahead
          ? 'That is still to come: say a time that has been.'
          : 'Where nobody knows, the last time that somebody saw that all was well.'
      }
    />
  </>
);

/** The instant at which the wall showed a time on a day; undefined where it is none. */
function instantOf(day: string, time: string, zone: string): string | undefined {
  if (day === '' || time === '') return undefined;
  const lastMinute = minutesAfter(dayBounds(day, zone).until, -1);
  return lastShown(time, zone, lastMinute);
}
