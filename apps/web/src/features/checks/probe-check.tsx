import { celsiusText } from '@bakehouse/kernel';
import type { OutcomeOf } from '@bakehouse/records';
import { useState } from 'react';
import { useAct } from '../../shared/use-act';
import { Button, Caution, Choice, Empty, Field, figureOf, LinkButton, NumberPad, Screen, StateWord } from '../../ui';
import { paths } from '../../shared/night/paths';
import { useNight } from '../../shared/night/use-night';
import { WhenWho, type WhenAndWho } from '../../shared/night/when-who';

const back = { to: paths.today, text: 'Today’s bake' };

/** A thermometer in melting ice or boiling water: right or off at once. What boiling means follows from the air pressure, so it is asked. */
export function ProbeCheck() {
  const { state } = useNight();
  const out = new Set(state.snapshot.instrumentOut.map((o) => o.instrument));
  const probes = state.snapshot.instrument.filter((i) => !out.has(i.id) && i.unit === 'degC');
  const [instrument, setInstrument] = useState<string | null>(probes.length === 1 ? (probes[0]?.id ?? null) : null);
  const [way, setWay] = useState<'ice' | 'boiling'>('ice');
  const [shown, setShown] = useState('');
  const [hectopascal, setHectopascal] = useState('');
  const [whenWho, setWhenWho] = useState<WhenAndWho>({});
  const [found, setFound] = useState<OutcomeOf<'instrument-checked'>>();
  const { act, busy, trouble } = useAct();
  const figure = figureOf(shown);
  const pressurePascal = /^\d{3,4}$/.test(hectopascal) ? Number(hectopascal) * 100 : null;
  const ready = instrument !== null && figure !== undefined && (way === 'ice' || pressurePascal !== null);
  const save = async (): Promise<void> => {
    if (instrument === null || figure === undefined) return;
    const at = { pressurePascal: way === 'ice' ? null : pressurePascal, altitudeMetres: null };
    const done = await act({
      kind: 'instrument-checked',
      ...whenWho,
      payload: { instrument, way, shown: { figure, unit: 'degC' }, at, tolerance: null },
    });
    setFound(done?.outcome);
  };
  if (found) return <Judged found={found} />;
  return (
    <Screen
      title="Check a thermometer"
      back={back}
      actions={
        <Button look="go" disabled={busy || !ready} onClick={() => void save()}>
          Record it
        </Button>
      }
    >
      {trouble}
      {probes.length === 0 ? (
        <Empty>No thermometer is in use here yet; it is set up in the office.</Empty>
      ) : (
        <Choice label="Which?" value={instrument} onChange={setInstrument} options={probes.map((p) => ({ value: p.id, text: p.name }))} />
      )}
      <Choice
        label="In what?"
        value={way}
        onChange={setWay}
        options={[
          { value: 'ice', text: 'melting ice, crushed, with water' },
          { value: 'boiling', text: 'boiling water' },
        ]}
      />
      <NumberPad label="It shows" unit="°C" value={shown} onChange={setShown} negative />
      {way === 'boiling' ? (
        <Field
          label="Air pressure here, in hPa"
          value={hectopascal}
          onChange={(typed) => setHectopascal(typed.replace(/\D/g, '').slice(0, 4))}
          hint="At the place itself, not reduced to sea level. Where nobody knows it, use ice."
          required
        />
      ) : null}
      <WhenWho value={whenWho} onChange={setWhenWho} />
      <Caution />
    </Screen>
  );
}

function Judged({ found }: { readonly found: OutcomeOf<'instrument-checked'> }) {
  const celsius = (milli: number): string => celsiusText(Math.round(milli / 10) * 10);
  return (
    <Screen title={`${found.name}: checked`} back={back} actions={<LinkButton to={paths.today}>Today’s bake</LinkButton>}>
      <p className="sum">
        {found.passed ? (
          <StateWord shape="disc" tone="good">
            right
          </StateWord>
        ) : (
          <StateWord shape="broken" tone="bad">
            off: do not read with it until somebody has decided
          </StateWord>
        )}
      </p>
      <p>
        It showed {celsius(found.milli)}; it should show {celsius(found.referenceMilli)} ± {celsius(found.toleranceMilli)}.
      </p>
      <Caution />
    </Screen>
  );
}
