import { phrase, type OutcomeOf } from '@bakehouse/records';
import { useState } from 'react';
import { Button, Caution, Choice, Empty, Field, LinkButton, Notice, Screen, Section, Tile, Tiles, VerdictMark } from '../../ui';
import { paths } from '../../shared/night/paths';
import { arrivalPoint, deliveryLine, keptCold, newLine, type DeliveryLine } from '../../shared/delivery-line';
import { DeliveryLineSheet } from '../../shared/delivery-line-sheet';
import { PhotoField } from '../../shared/photo-field';
import { useAct } from '../../shared/use-act';
import { useNight } from '../../shared/night/use-night';

type Done = OutcomeOf<'delivery-received'>;
const toToday = (
  <LinkButton to={paths.today} look="go">
    Today’s bake
  </LinkButton>
);

/** Goods found without anybody there: what it is, how much, at which temperature. The code may come later; nothing waits for paper. */
export function Unattended({ home }: { readonly home: string }) {
  const { state, now } = useNight();
  const [supplier, setSupplier] = useState('');
  const [lines, setLines] = useState<readonly DeliveryLine[]>([]);
  const [editing, setEditing] = useState<DeliveryLine>();
  const [note, setNote] = useState('');
  const [photo, setPhoto] = useState<string | null>(null);
  const [done, setDone] = useState<Done>();
  const { act, busy, trouble } = useAct();
  const pointOf = (l: DeliveryLine) =>
    keptCold(state.snapshot, l.material)
      ? arrivalPoint(state.snapshot, { site: state.site.id, at: now, material: l.material, measured: l.measured })
      : undefined;
  const save = async (): Promise<void> => {
    const recorded = await act({
      kind: 'delivery-received',
      words: { note },
      payload: {
        supplier: supplier === '' ? null : supplier,
        noteNumber: null,
        photo,
        unattended: true,
        lines: lines.map((l) => deliveryLine(l, pointOf(l)?.id ?? null)),
      },
    });
    if (recorded) setDone(recorded.outcome);
  };
  if (done)
    return (
      <Screen title="Unattended delivery" back={{ to: home, text: 'Goods in' }} actions={toToday}>
        <OnRecord done={done} />
      </Screen>
    );
  const put = (line: DeliveryLine): void => {
    setLines([...lines.filter((l) => l.lot !== line.lot), line]);
    setEditing(undefined);
  };
  const record = (
    <Button look="go" disabled={busy || lines.length === 0} onClick={() => void save()}>
      Record {lines.length === 0 ? '' : String(lines.length)}
    </Button>
  );
  return (
    <Screen title="Unattended delivery" back={{ to: home, text: 'Goods in' }} actions={record}>
      {trouble}
      <PhotoField label="Photo of what is there" value={photo} onChange={setPhoto} />
      <Found lines={lines} onChosen={setEditing} />
      <Section title="What is it?">
        <Materials onChosen={(material, name) => setEditing(newLine(material, name))} />
      </Section>
      <FromWhom value={supplier} onChange={setSupplier} />
      <Field label="A few words, if you like" value={note} onChange={setNote} lines={2} maxLength={1000} />
      <Caution />
      {editing ? (
        <DeliveryLineSheet line={editing} onClose={() => setEditing(undefined)} onDone={put} limit={pointOf(editing)?.limit} />
      ) : null}
    </Screen>
  );
}

function OnRecord({ done }: { readonly done: Done }) {
  return (
    <>
      <Notice tone="good" title="On record">
        <p>
          What is on hold is not used before it is decided. What only lacks its code can be used; the code is added when somebody has it.
        </p>
      </Notice>
      <ul className="rows">
        {done.lines.map((l, i) => (
          <li key={i} className="row">
            <span className="row-main">
              <strong>{l.name}</strong>
              {l.reading?.holds ? ' · on hold until it is decided' : ''}
            </span>
            {l.reading ? (
              <VerdictMark
                verdict={l.reading.verdict}
                of={l.reading.class}
                value={{ milli: l.reading.milli, limit: l.reading.asked?.limit ?? null }}
                doubt={null} // a line of such a delivery names no thermometer
              />
            ) : null}
          </li>
        ))}
      </ul>
      <Caution />
    </>
  );
}

function Found({ lines, onChosen }: { readonly lines: readonly DeliveryLine[]; readonly onChosen: (line: DeliveryLine) => void }) {
  if (lines.length === 0) return <Empty>Tap what was found.</Empty>;
  return (
    <ul className="rows">
      {lines.map((l) => (
        <li key={l.lot}>
          <button type="button" className="row" onClick={() => onChosen(l)}>
            <span className="row-main">
              <strong>{l.name}</strong> {l.quantity === '' ? 'amount not known' : `${l.quantity} ${l.unit}`}
              {l.temperature === '' ? '' : ` · ${l.temperature} °C ${phrase(`measured.${l.measured}`)}`}
            </span>
            <span className="row-side">{l.codeState === 'on-it' ? l.code : phrase(`codeState.${l.codeState}`)}</span>
          </button>
        </li>
      ))}
    </ul>
  );
}

function FromWhom({ value, onChange }: { readonly value: string; readonly onChange: (supplier: string) => void }) {
  const { state } = useNight();
  const known = new Map(state.snapshot.party.filter((p) => p.type === 'supplier').map((p) => [p.party, p.name ?? '']));
  if (known.size === 0) return null;
  const options = [{ value: '', text: 'not known' }, ...[...known].map(([party, text]) => ({ value: party, text }))];
  return <Choice label="From whom?" value={value} onChange={onChange} options={options} />;
}

function Materials({ onChosen }: { readonly onChosen: (material: string, name: string) => void }) {
  const { state } = useNight();
  const [search, setSearch] = useState('');
  const wanted = search.trim().toLowerCase();
  const bought = state.snapshot.specification.filter(
    (s) => ['ingredient', 'aid', 'packaging'].includes(s.type) && s.name.toLowerCase().includes(wanted),
  );
  const cold = (storage: string): number => (storage === 'ambient' ? 1 : 0);
  const list = [...new Map(bought.map((s) => [s.material, s])).values()].sort(
    (a, b) => cold(a.storage) - cold(b.storage) || a.name.localeCompare(b.name),
  );
  return (
    <>
      <Field label="Find it by name" value={search} onChange={setSearch} />
      <Tiles label="Materials">
        {list.slice(0, 18).map((s) => (
          <Tile key={s.material} title={s.name} detail={phrase(`storage.${s.storage}`)} onClick={() => onChosen(s.material, s.name)} />
        ))}
      </Tiles>
    </>
  );
}
