import { cleanDownType, leavesContact, phrase, type Row } from '@bakehouse/records';
import { useState } from 'react';
import { useLocation } from 'wouter';
import { placesOf } from '../../shared/in-force';
import { useAct } from '../../shared/use-act';
import { Button, Choice, Empty, Field, Screen } from '../../ui';
import { paths } from '../../shared/night/paths';
import { useNight } from '../../shared/night/use-night';
import { WhenWho, type WhenAndWho } from '../../shared/night/when-who';

const places: readonly Row<'place'>['type'][] = [
  'mixer',
  'station',
  'oven',
  'prover',
  'retarder',
  'chiller',
  'fridge',
  'freezer',
  'counter',
];

/** A place was cleaned down, with what and for how long: what was on it before cannot reach what is made there after. */
export function CleanDown() {
  const { state } = useNight();
  const [, go] = useLocation();
  const [place, setPlace] = useState<string | null>(null);
  const [type, setType] = useState<Row<'cleanDown'>['type']>('wet');
  const [chemical, setChemical] = useState('');
  const [dilution, setDilution] = useState('');
  const [minutes, setMinutes] = useState('');
  const [whenWho, setWhenWho] = useState<WhenAndWho>({});
  const { act, busy, trouble } = useAct();
  const list = placesOf(state.snapshot, places);
  const save = async (): Promise<void> => {
    if (place === null) return;
    const text = (typed: string): string | null => (typed.trim() === '' ? null : typed.trim());
    const contactSeconds = minutes === '' ? null : Number(minutes) * 60;
    const payload = { place, type, chemical: text(chemical), dilution: text(dilution), contactSeconds };
    if (await act({ kind: 'cleaned-down', ...whenWho, payload })) go(paths.today);
  };
  return (
    <Screen
      title="Cleaned down"
      back={{ to: paths.today, text: 'Today’s bake' }}
      actions={
        <Button look="go" disabled={busy || place === null} onClick={() => void save()}>
          Record it
        </Button>
      }
    >
      {trouble}
      {list.length === 0 ? (
        <Empty>No station or equipment is in use here yet; it is set up in the office.</Empty>
      ) : (
        <Choice label="What?" value={place} onChange={setPlace} options={list.map((p) => ({ value: p.id, text: p.name }))} />
      )}
      <Choice
        label="How?"
        value={type}
        onChange={setType}
        options={cleanDownType.options.map((s) => ({ value: s, text: phrase(`cleanDown.${s}`) }))}
      />
      {leavesContact.some((t) => t === type) ? (
        <p className="hint">A dry clean ends no contact: what is made here next may still hold what was here before, an allergen too.</p>
      ) : null}
      <Field label="With what, if with anything" value={chemical} onChange={setChemical} maxLength={80} />
      <Field label="How diluted, as on the label" value={dilution} onChange={setDilution} maxLength={40} hint="Such as 1:50" />
      <Field label="Minutes that it was left on" value={minutes} onChange={(typed) => setMinutes(typed.replace(/\D/g, '').slice(0, 4))} />
      <WhenWho value={whenWho} onChange={setWhenWho} />
    </Screen>
  );
}
