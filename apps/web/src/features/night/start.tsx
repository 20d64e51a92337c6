import { latest } from '@bakehouse/kernel';
import { phrase, planInForce, type Row, type Snapshot } from '@bakehouse/records';
import { useState } from 'react';
import { useLocation } from 'wouter';
import { mass, inGrams } from '../../shared/format';
import { Button, Choice, Empty, figureOf, NumberPad, Screen, Tile, Tiles } from '../../ui';
import { formulasInUse, stationsOf } from '../../shared/in-force';
import { LinesPreview } from './lines-preview';
import { paths } from '../../shared/night/paths';
import { useAct } from '../../shared/use-act';
import { useNight } from '../../shared/night/use-night';
import { WhenWho, type WhenAndWho } from '../../shared/night/when-who';

/** Tap one of two: which formula. */
export function Start() {
  const { state, now } = useNight();
  const formulas = formulasInUse(state.snapshot, now);
  return (
    <Screen title="Start a mix" back={{ to: paths.today, text: 'Today’s bake' }}>
      {formulas.length === 0 ? (
        <Empty>No formula is approved here yet. One is approved in the office; then it stands here.</Empty>
      ) : (
        <Tiles label="Formulas">
          {formulas.map((f) => (
            <Tile key={f.id} to={paths.startOf(f.formula)} title={f.name} detail={`${phrase(`formula.${f.type}`)} · ${mass(wholeOf(f))}`} />
          ))}
        </Tiles>
      )}
    </Screen>
  );
}

const wholeOf = (f: Row<'formulaVersion'>): number => f.content.lines.reduce((sum, l) => sum + l.mg, 0);
const factors = [
  ['1', 'usual'],
  ['0.5', 'half'],
  ['1.5', 'one and a half'],
  ['2', 'double'],
  ['other', 'other amount'],
] as const;
type Factor = (typeof factors)[number][0];

/** Tap two of two: begin it. Amounts and lots stand there already; both can be changed. */
export function StartOne({ formula }: { readonly formula: string }) {
  const { state, now, day } = useNight();
  const [, go] = useLocation();
  const version = formulasInUse(state.snapshot, now).find((f) => f.formula === formula);
  const stations = stationsOf(state.snapshot);
  const [station, setStation] = useState<string>(() => proposedStation(state.snapshot, version) ?? '');
  const [whenWho, setWhenWho] = useState<WhenAndWho>({});
  const [factor, setFactor] = useState<Factor>('1');
  const [typed, setTyped] = useState('');
  const { act, busy, trouble } = useAct();
  const back = { to: paths.start, text: 'Formulas' };
  if (!version)
    return (
      <Screen title="Start a mix" back={back}>
        <Empty>This formula is retired. Choose another.</Empty>
      </Screen>
    );
  const other = figureOf(typed);
  const plannedMg =
    factor === 'other' ? (other === undefined ? null : Math.round(Number(other) * 1000)) : Math.round(wholeOf(version) * Number(factor));
  const begin = async (): Promise<void> => {
    const plan = planInForce(state.snapshot.planVersion, state.site.id, now);
    const done = await act({
      kind: 'make-begun',
      ...whenWho,
      payload: { formulaVersion: version.id, station: station === '' ? null : station, plan: plan?.id ?? null, bakeDay: day, plannedMg },
    });
    if (done) go(paths.make(done.id));
  };
  return (
    <Screen
      title={version.name}
      back={back}
      actions={
        <Button
          look="go"
          disabled={busy || plannedMg === null || plannedMg <= 0 || (station === '' && stations.length > 0)}
          onClick={() => void begin()}
        >
          Begin {plannedMg === null ? '' : mass(plannedMg)}
        </Button>
      }
    >
      {trouble}
      <Choice
        label="How much"
        value={factor}
        onChange={(f) => {
          setFactor(f);
          if (f === 'other') setTyped(inGrams(wholeOf(version)));
        }}
        options={factors.map(([value, text]) => ({ value, text }))}
      />
      {factor === 'other' ? <NumberPad label="Dough in all" unit="g" value={typed} onChange={setTyped} /> : null}
      {stations.length > 1 ? (
        <Choice label="Where" value={station} onChange={setStation} options={stations.map((s) => ({ value: s.id, text: s.name }))} />
      ) : null}
      <WhenWho value={whenWho} onChange={setWhenWho} />
      <LinesPreview version={version} plannedMg={plannedMg} station={station === '' ? null : station} from={now} />
    </Screen>
  );
}

/** Where this formula was made the last time, or else one of its type; where there is one place alone, there. Nobody guesses among several. */
function proposedStation(snapshot: Snapshot, version: Row<'formulaVersion'> | undefined): string | undefined {
  const stations = stationsOf(snapshot);
  const there = snapshot.make.filter((m) => stations.some((s) => s.id === m.station));
  const last = latest(there.filter((m) => m.formula === version?.formula)) ?? latest(there.filter((m) => m.type === version?.type));
  return last?.station ?? (stations.length === 1 ? stations[0]?.id : undefined);
}
