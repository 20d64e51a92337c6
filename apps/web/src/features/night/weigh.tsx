import type { OutcomeOf, Row } from '@bakehouse/records';
import { useState } from 'react';
import { useLocation } from 'wouter';
import { Empty, Screen, Section } from '../../ui';
import { reworkAgainst } from './against-rule';
import { AdjustMake } from './adjust-make';
import { AmountSheet, type Amount } from './amount-sheet';
import { OpenedNotice } from './opened-notice';
import { useAllTheSame } from '../../shared/night/all-the-same';
import { openFor } from '../../shared/night/lots';
import { OpenSheet } from './open-sheet';
import { paths } from '../../shared/night/paths';
import { useAct } from '../../shared/use-act';
import { useNight } from '../../shared/night/use-night';
import { NotHere } from '../../shared/night/not-here';
import { WeighAside } from './weigh-aside';
import { asPayload, linesToWeigh, type Line } from './weigh-lines';
import { WeighTable, type TableProps } from './weigh-table';
import '../../ui/styles/pads.css';

/** What goes in, filled in already: amounts from the formula, lots from what is open. One tap takes what nothing speaks against; a tap on a line changes it. */
export function Weigh({ id }: { readonly id: string }) {
  const night = useNight();
  const { view, state } = night;
  const [, go] = useLocation();
  const [changed, setChanged] = useState<ReadonlyMap<string, Amount>>(new Map());
  const [unsure, setUnsure] = useState<ReadonlySet<string>>(new Set());
  const [evenSo, setEvenSo] = useState<ReadonlySet<string>>(new Set());
  const [evenShort, setEvenShort] = useState<ReadonlySet<string>>(new Set());
  const [editing, setEditing] = useState<Line>();
  const { act, busy, trouble } = useAct();
  const { unlessTroubled, asked } = useAllTheSame();
  const make = state.rows.get('make', id);
  const seen = view.makes.find((m) => m.id === id);
  const version = make && state.rows.get('formulaVersion', make.formulaVersion);
  const back = { to: paths.make(id), text: make?.formulaName ?? 'Mix' };
  if (!make || !seen || !version) return <NotHere title="Weigh in" back={back} what="mix" />;
  const lines = linesToWeigh(night, { make, seen, version, changed, unsure, evenSo, evenShort });
  const going = lines.filter((l) => l.goes);
  const turn = (material: string): void => {
    const now = new Set(unsure);
    if (!now.delete(material)) now.add(material);
    setUnsure(now);
  };
  const takeEvenSo = (line: Line): void =>
    unlessTroubled(
      line.stops.map((s) => s.lot),
      () => setEvenSo(new Set([...evenSo, ...line.stops.map((s) => s.lot)])),
    );
  const onEvenShort = (line: Line): void => setEvenShort(new Set([...evenShort, line.key]));
  const payload = going.map((l) => asPayload(l, version));
  const against = reworkAgainst(night, id, payload);
  const record = async (): Promise<void> => {
    if (await act({ kind: 'weighed-in', payload: { make: id, lines: payload } })) go(paths.make(id));
  };
  return (
    <Screen title={`${make.formulaName}: weigh in`} back={back}>
      {trouble}
      {asked}
      <div className="weighing">
        <div>
          <Proposed {...{ make, lines, onEvenSo: takeEvenSo, onEvenShort, onEdit: setEditing, onUnsure: turn }} />
        </div>
        <WeighAside
          {...{ make, version, seen }}
          going={going}
          waiting={lines.filter((l) => !l.goes && !l.leftOut && !l.none)}
          busy={busy}
          against={against}
          onRecord={() => unlessTroubled([], () => void record(), 'using', against)}
        />
      </div>
      <Section title="Half-way, or something else">
        <AdjustMake make={make} version={version} />
      </Section>
      {editing ? (
        <AmountSheet
          title={editing.name}
          value={editing}
          {...(editing.open > 1 && editing.orLots.length === 0 ? { none: 'Nothing of this one' } : {})}
          onClose={() => setEditing(undefined)}
          onDone={(amount) => {
            setChanged(new Map(changed).set(editing.key, amount));
            setEditing(undefined);
          }}
        />
      ) : null}
    </Screen>
  );
}

/** The lines, with another sack opened where one ran out or none is open. */
function Proposed({ make, lines, ...table }: Omit<TableProps, 'onOpen'> & { readonly make: Row<'make'> }) {
  const { lookup, now } = useNight();
  const [opening, setOpening] = useState<{ readonly line: Line; readonly ranOut: boolean }>();
  const [opened, setOpened] = useState<OutcomeOf<'lot-opened'>>();
  const station = (line: Line): string | null =>
    openFor(lookup, make.station, make.at, now).find((o) => o.lot === line.lot && o.material === line.material)?.station ?? make.station;
  return (
    <>
      {opened ? <OpenedNotice found={opened} /> : null}
      {lines.length === 0 ? (
        <Empty>Everything of the formula is in.</Empty>
      ) : (
        <WeighTable lines={lines} {...table} onOpen={(line, ranOut) => setOpening({ line, ranOut })} />
      )}
      {opening ? (
        <OpenSheet
          station={station(opening.line)}
          material={opening.line.material}
          name={opening.line.name}
          emptied={opening.ranOut ? opening.line.lot : null}
          onClose={() => setOpening(undefined)}
          onOpened={(found) => {
            setOpened(found);
            setOpening(undefined);
          }}
        />
      ) : null}
    </>
  );
}
