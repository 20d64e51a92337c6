import { type OutcomeOf } from '@bakehouse/records';
import { type InUseView } from '@bakehouse/views';
import { useState } from 'react';
import { AlikeHeld, TroubleWord } from '../../shared/concerns';
import { massRange, whenText } from '../../shared/format';
import { Button, Choice, Empty, Field, For, Screen, Section, StateWord, Tile, Tiles } from '../../ui';
import { placesOf } from '../../shared/in-force';
import { codeText } from '../../shared/night/code-text';
import { OpenTooLong } from './lot-cell';
import { OpenSheet } from './open-sheet';
import { useAct } from '../../shared/use-act';
import { useNight } from '../../shared/night/use-night';
import { OpenedNotice } from './opened-notice';

interface Opening {
  readonly station: string;
  readonly material: string;
  readonly name: string;
  readonly emptied: string | null;
}

/** What is open now at every station: the lots that mixes take without being asked. */
export function OpenLots() {
  const { view, zone, now } = useNight();
  const [opening, setOpening] = useState<Opening>();
  const [opened, setOpened] = useState<OutcomeOf<'lot-opened'>>();
  const { act, busy, trouble } = useAct();
  const stations = [...new Map(view.inUse.map((u) => [u.station, u.stationName ?? '']))];
  return (
    <Screen title="Open lots">
      {trouble}
      {opened ? <OpenedNotice found={opened} /> : null}
      {view.inUse.length === 0 ? <Empty>Nothing is open yet. Open what the mixes take; then nobody types a lot.</Empty> : null}
      {stations.map(([station, name]) => (
        <Section key={station} title={name}>
          <ul className="rows">
            {view.inUse
              .filter((u) => u.station === station)
              .map((u) => (
                <li key={`${u.lot} ${u.material}`} className="row">
                  <span className="row-main">
                    <strong>{u.name}</strong> {codeText(u.code)} · since {whenText(u.since, now, zone)}
                    {u.leftMg === null ? '' : ` · ${massRange(u.leftMg, u.perhapsMg)} left by the records`}
                  </span>
                  <Warnings u={u} />
                  <Button
                    needs="record"
                    label={`${u.name}: ran out`}
                    onClick={() => {
                      setOpened(undefined);
                      setOpening({ station, material: u.material, name: u.name, emptied: u.lot });
                    }}
                  >
                    Ran out
                  </Button>
                  <Button
                    needs="record"
                    label={`${u.name}: put away`}
                    disabled={busy}
                    onClick={() => {
                      void act({ kind: 'lot-emptied', payload: { station, lot: u.lot, left: null } });
                    }}
                  >
                    Put away
                  </Button>
                </li>
              ))}
          </ul>
        </Section>
      ))}
      <For needs="record">
        <OpenAnother
          onChosen={(o) => {
            setOpened(undefined);
            setOpening(o);
          }}
        />
      </For>
      {opening ? (
        <OpenSheet
          {...opening}
          onClose={() => setOpening(undefined)}
          onOpened={(found) => {
            setOpened(found);
            setOpening(undefined);
          }}
        />
      ) : null}
    </Screen>
  );
}

function Warnings({ u }: { readonly u: InUseView }) {
  return (
    <>
      <TroubleWord trouble={u.said} />
      {u.alikeHeld.length > 0 ? <AlikeHeld /> : null}
      {u.openTooLong ? <OpenTooLong /> : null}
      {u.leftMg !== null && u.leftMg < 0 ? (
        <StateWord shape="diamond" tone="ask">
          more used than came: count it
        </StateWord>
      ) : null}
    </>
  );
}

function OpenAnother({ onChosen }: { readonly onChosen: (opening: Opening) => void }) {
  const { state } = useNight();
  const stations = placesOf(state.snapshot, ['mixer', 'station', 'vessel']);
  const [station, setStation] = useState<string | null>(stations[0]?.id ?? null);
  const [search, setSearch] = useState('');
  const wanted = search.trim().toLowerCase();
  const materials = [...new Map(state.snapshot.specification.filter((s) => s.type !== 'product').map((s) => [s.material, s.name]))]
    .filter(([, name]) => name.toLowerCase().includes(wanted))
    .sort((a, b) => a[1].localeCompare(b[1]));
  if (station === null) return <Empty>No station is in use here yet; one is set up in the office.</Empty>;
  return (
    <Section title="Open something">
      <Choice label="Where" value={station} onChange={setStation} options={stations.map((s) => ({ value: s.id, text: s.name }))} />
      <Field label="Find it by name" value={search} onChange={setSearch} />
      <Tiles label="Materials">
        {materials.slice(0, 24).map(([material, name]) => (
          <Tile key={material} title={name} onClick={() => onChosen({ station, material, name, emptied: null })} />
        ))}
      </Tiles>
    </Section>
  );
}
