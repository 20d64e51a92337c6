import { partiesAt, phrase } from '@bakehouse/records';
import { useState } from 'react';
import { arrivalPoint, deliveryLine, keptCold, newLine, type DeliveryLine } from '../../shared/delivery-line';
import { DeliveryLineSheet } from '../../shared/delivery-line-sheet';
import { useNow, useTabletState } from '../../shared/tablet-context';
import { PhotoField } from '../../shared/photo-field';
import { useAct } from '../../shared/use-act';
import { Button, Caution, Choice, Empty, Field, LinkButton, Notice, Screen, Section, Tile, Tiles } from '../../ui';

/** A delivery with its lines, as the paper says and as it was found. */
export function NewDelivery({ home }: { readonly home: string }) {
  const state = useTabletState();
  const now = useNow(10_000);
  const [paper, setPaper] = useState<PaperSaid>({ supplier: '', noteNumber: '', attended: 'taken' });
  const [lines, setLines] = useState<readonly DeliveryLine[]>([]);
  const [editing, setEditing] = useState<DeliveryLine>();
  const [note, setNote] = useState('');
  const [photo, setPhoto] = useState<string | null>(null);
  const [done, setDone] = useState(false);
  const { act, busy, trouble } = useAct();
  const { snapshot, site } = state;
  const pointFor = (l: DeliveryLine) =>
    keptCold(snapshot, l.material)
      ? arrivalPoint(snapshot, { site: site.id, at: now, material: l.material, measured: l.measured })
      : undefined;
  const save = async (): Promise<void> => {
    if (
      await act({
        kind: 'delivery-received',
        words: { note },
        payload: {
          supplier: paper.supplier === '' ? null : paper.supplier,
          noteNumber: paper.noteNumber.trim() === '' ? null : paper.noteNumber.trim(),
          photo,
          unattended: paper.attended === 'found',
          lines: lines.map((l) => deliveryLine(l, pointFor(l)?.id ?? null)),
        },
      })
    )
      setDone(true);
  };
  if (done) return <OnRecord lines={lines.length} home={home} />;
  return (
    <Screen
      title="A delivery"
      back={{ to: home, text: 'Goods in' }}
      actions={
        <Button look="go" disabled={busy || lines.length === 0} onClick={() => void save()}>
          {lines.length === 0 ? 'Record' : `Record ${lines.length} ${lines.length === 1 ? 'line' : 'lines'}`}
        </Button>
      }
    >
      {trouble}
      <Paper value={paper} onChange={setPaper} />
      <WhatCame lines={lines} onChosen={setEditing} />
      <Section title="Add what came">
        <Materials onChosen={(material, name) => setEditing(newLine(material, name, 'on-it'))} />
      </Section>
      <PhotoField label="Photo of the note" value={photo} onChange={setPhoto} />
      <Field label="A few words, if you like" value={note} onChange={setNote} lines={2} maxLength={1000} />
      <Caution />
      {editing ? (
        <DeliveryLineSheet
          line={editing}
          limit={pointFor(editing)?.limit}
          onClose={() => setEditing(undefined)}
          onDone={(line) => {
            setLines([...lines.filter((l) => l.lot !== line.lot), line]);
            setEditing(undefined);
          }}
        />
      ) : null}
    </Screen>
  );
}

interface PaperSaid {
  readonly supplier: string;
  readonly noteNumber: string;
  readonly attended: 'taken' | 'found';
}

function Paper({ value, onChange }: { readonly value: PaperSaid; readonly onChange: (value: PaperSaid) => void }) {
  const { snapshot } = useTabletState();
  const suppliers = partiesAt(snapshot, useNow(60_000)).filter((p) => p.type === 'supplier');
  return (
    <>
      <Choice
        label="From whom?"
        value={value.supplier}
        onChange={(supplier) => onChange({ ...value, supplier })}
        options={[...suppliers.map((p) => ({ value: p.party, text: p.name ?? '' })), { value: '', text: 'not known' }]}
      />
      <div className="two">
        <Field
          label="Number on the delivery note"
          value={value.noteNumber}
          onChange={(noteNumber) => onChange({ ...value, noteNumber })}
          maxLength={60}
          hint="Leave it empty where there is no paper"
        />
        <Choice
          label="Was somebody there?"
          value={value.attended}
          onChange={(attended) => onChange({ ...value, attended })}
          options={[
            { value: 'taken', text: 'Taken in by one of us' },
            { value: 'found', text: 'Found, left with nobody there' },
          ]}
        />
      </div>
    </>
  );
}

function WhatCame({ lines, onChosen }: { readonly lines: readonly DeliveryLine[]; readonly onChosen: (line: DeliveryLine) => void }) {
  const { snapshot } = useTabletState();
  const warm = lines.filter((l) => l.temperature === '' && keptCold(snapshot, l.material));
  return (
    <Section title="What came">
      {lines.length === 0 ? (
        <Empty>Tap what came, below.</Empty>
      ) : (
        <ul className="rows">
          {lines.map((l) => (
            <li key={l.lot}>
              <button type="button" className="row" onClick={() => onChosen(l)}>
                <span className="row-main">
                  <strong>{l.name}</strong>{' '}
                  {l.quantity === '' ? 'amount not known' : `${l.quantity} ${l.unit === 'piece' ? 'pieces' : l.unit}`}
                  {l.temperature === '' ? '' : ` · ${l.temperature} °C ${phrase(`measured.${l.measured}`)}`}
                  {l.useBy === '' ? '' : ` · use by ${l.useBy}`}
                </span>
                <span className="row-side">{l.codeState === 'on-it' ? `lot ${l.code}` : phrase(`codeState.${l.codeState}`)}</span>
              </button>
            </li>
          ))}
        </ul>
      )}
      {warm.length === 0 ? null : (
        <Notice tone="ask" title="No temperature yet">
          <p>
            {warm.map((l) => l.name).join(', ')}: kept cold, so measure between the packs before it is put away. Without a reading it can be
            recorded all the same.
          </p>
        </Notice>
      )}
    </Section>
  );
}

function OnRecord({ lines, home }: { readonly lines: number; readonly home: string }) {
  return (
    <Screen
      title="On record"
      back={{ to: home, text: 'Goods in' }}
      actions={
        <LinkButton to={home} look="go">
          Decide what may be used
        </LinkButton>
      }
    >
      <Notice tone="good" title={`${lines} ${lines === 1 ? 'line' : 'lines'} on record`}>
        <p>What arrived too warm is on hold until somebody decides. What has no code yet can be identified later.</p>
      </Notice>
      <Caution />
    </Screen>
  );
}

function Materials({ onChosen }: { readonly onChosen: (material: string, name: string) => void }) {
  const { snapshot } = useTabletState();
  const [search, setSearch] = useState('');
  const wanted = search.trim().toLowerCase();
  const bought = snapshot.specification.filter(
    (s) => (s.type === 'ingredient' || s.type === 'aid' || s.type === 'packaging') && s.name.toLowerCase().includes(wanted),
  );
  const list = [...new Map(bought.map((s) => [s.material, s])).values()].sort((a, b) => a.name.localeCompare(b.name));
  return (
    <>
      <Field label="Find it by name" value={search} onChange={setSearch} />
      {list.length === 0 ? (
        <Empty>
          No material has that name. It must be on the list of materials first; until then, record it as the nearest one and say so in the
          words below.
        </Empty>
      ) : null}
      <Tiles label="Materials">
        {list.slice(0, 24).map((s) => (
          <Tile key={s.material} title={s.name} detail={phrase(`storage.${s.storage}`)} onClick={() => onChosen(s.material, s.name)} />
        ))}
      </Tiles>
    </>
  );
}
