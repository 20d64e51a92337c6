import { phrase } from '@bakehouse/domain';
import { useState } from 'react';
import { Button, Caution, Choice, Empty, Field, LinkButton, Notice, Screen, Section, Tile, Tiles, VerdictMark } from '../../shared/ui';
import { paths } from './paths';
import { arrivalPoint, deliveryLine, keptCold, newLine, type DeliveryLine } from '../../shared/delivery-line';
import { DeliveryLineSheet } from '../../shared/delivery-line-sheet';
import { readDelivered } from './read-outcome';
import { useAct } from '../../shared/use-act';
import { useNight } from './use-night';

type Done = NonNullable<ReturnType<typeof readDelivered>>;

/** Goods found without anybody there: what it is, how much, how warm. The code may come later; nothing waits for paper. */
export function Porch() {
  const { state, now, look } = useNight();
  const [supplier, setSupplier] = useState('');
  const [lines, setLines] = useState<readonly DeliveryLine[]>([]);
  const [editing, setEditing] = useState<DeliveryLine>();
  const [note, setNote] = useState('');
  const [done, setDone] = useState<Done>();
  const { act, busy, trouble } = useAct();
  const newest = new Map(state.snapshot.party.filter((p) => p.sort === 'supplier').map((p) => [p.party, p.name ?? '']));
  const pointOf = (l: DeliveryLine): string | null =>
    keptCold(state.snapshot, l.material)
      ? (arrivalPoint(state.snapshot, { site: state.site.id, at: now, material: l.material, measured: l.measured })?.id ?? null)
      : null;
  const save = async (): Promise<void> => {
    const recorded = await act({
      kind: 'delivery-received',
      words: { note },
      payload: {
        supplier: supplier === '' ? null : supplier,
        noteNumber: null,
        photo: null,
        unattended: true,
        lines: lines.map((l) => deliveryLine(l, pointOf(l))),
      },
    });
    const found = recorded?.ok ? readDelivered(recorded.outcome) : undefined;
    if (found) setDone(found);
  };
  if (done) {
    return (
      <Screen
        title="Found in the porch"
        actions={
          <LinkButton to={paths.today} look="go">
            Today’s bake
          </LinkButton>
        }
      >
        <Notice tone="good" title="On record">
          <p>What has no code yet can be used; the code is added when somebody has it.</p>
        </Notice>
        <ul className="rows">
          {done.lines.map((l, i) => (
            <li key={i} className="row">
              <span className="row-main">
                <strong>{l.name}</strong>
                {l.reading?.holds ? ' · kept back until it is decided' : ''}
              </span>
              {l.reading ? <VerdictMark verdict={l.reading.verdict} /> : null}
            </li>
          ))}
        </ul>
        <Caution />
      </Screen>
    );
  }
  const put = (line: DeliveryLine): void => {
    setLines([...lines.filter((l) => l.lot !== line.lot), line]);
    setEditing(undefined);
  };
  return (
    <Screen
      title="Found in the porch"
      actions={
        <Button
          look="go"
          disabled={busy || lines.length === 0}
          onClick={() => {
            void save();
          }}
        >
          Record {lines.length === 0 ? '' : String(lines.length)}
        </Button>
      }
    >
      {trouble}
      {lines.length === 0 ? (
        <Empty>Tap what was found.</Empty>
      ) : (
        <ul className="rows">
          {lines.map((l) => (
            <li key={l.lot}>
              <button
                type="button"
                className="row"
                onClick={() => {
                  setEditing(l);
                }}
              >
                <span className="row-main">
                  <strong>{l.name}</strong> {l.quantity === '' ? 'amount not known' : `${l.quantity} ${l.unit}`}
                  {l.temperature === '' ? '' : ` · ${l.temperature} °C ${phrase(`measured.${l.measured}`)}`}
                </span>
                <span className="row-side">{l.codeState === 'on-it' ? l.code : phrase(`codeState.${l.codeState}`)}</span>
              </button>
            </li>
          ))}
        </ul>
      )}
      <Section title="What is it?">
        <Materials
          onChosen={(material, name) => {
            setEditing(newLine(material, name));
          }}
        />
      </Section>
      {newest.size === 0 ? null : (
        <Choice
          label="From whom?"
          value={supplier}
          onChange={setSupplier}
          options={[{ value: '', text: 'not known' }, ...[...newest].map(([value, text]) => ({ value, text }))]}
        />
      )}
      <Field label="A few words, if you like" value={note} onChange={setNote} lines={2} maxLength={1000} />
      <Caution />
      {editing ? (
        <DeliveryLineSheet
          line={editing}
          onClose={() => {
            setEditing(undefined);
          }}
          onDone={put}
          limit={
            keptCold(look.snapshot, editing.material)
              ? arrivalPoint(look.snapshot, { site: state.site.id, at: now, material: editing.material, measured: editing.measured })?.limit
              : undefined
          }
        />
      ) : null}
    </Screen>
  );
}

function Materials({ onChosen }: { readonly onChosen: (material: string, name: string) => void }) {
  const { state } = useNight();
  const [search, setSearch] = useState('');
  const wanted = search.trim().toLowerCase();
  const bought = state.snapshot.specification.filter(
    (s) => (s.sort === 'ingredient' || s.sort === 'aid' || s.sort === 'packaging') && s.name.toLowerCase().includes(wanted),
  );
  const cold = (storage: string): number => (storage === 'ambient' ? 1 : 0);
  const list = [...new Map(bought.map((s) => [s.material, s])).values()].sort((a, b) => cold(a.storage) - cold(b.storage) || a.name.localeCompare(b.name));
  return (
    <>
      <Field label="Find it by name" value={search} onChange={setSearch} />
      <Tiles label="Materials">
        {list.slice(0, 18).map((s) => (
          <Tile
            key={s.material}
            title={s.name}
            detail={phrase(`storage.${s.storage}`)}
            onClick={() => {
              onChosen(s.material, s.name);
            }}
          />
        ))}
      </Tiles>
    </>
  );
}
