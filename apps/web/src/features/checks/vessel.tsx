import { openNow, type Row } from '@bakehouse/records';
import { codeOf, leftRangeIn, saidOf, type Lookup } from '@bakehouse/views';
import { useState } from 'react';
import { AmountPad, unitsOf, useAmount } from '../../shared/amount-pad';
import { placesOf } from '../../shared/in-force';
import { TroubleWord } from '../../shared/concerns';
import { leftByRecords, whenText } from '../../shared/format';
import { useAct } from '../../shared/use-act';
import { Button, Caution, Choice, Empty, Field, Notice, Screen, Section, Sheet, Tile, Tiles } from '../../ui';
import { useAllTheSame } from '../../shared/night/all-the-same';
import { codeText } from '../../shared/night/code-text';
import { lotsToOpen } from '../../shared/night/lots';
import { paths } from '../../shared/night/paths';
import { useNight } from '../../shared/night/use-night';

const back = { to: paths.stock, text: 'In stock' };

/** Bins, tubs and pots that are filled on top of what is in them: nothing but a recorded clean-out breaks that chain. */
export function Vessels() {
  const { state, lookup, zone, now } = useNight();
  const vessels = placesOf(state.snapshot, ['vessel']);
  const [chosen, setChosen] = useState<string | null>(vessels.length === 1 ? (vessels[0]?.id ?? null) : null);
  const [asking, setAsking] = useState<'up' | 'out'>();
  const [done, setDone] = useState<string>();
  const vessel = vessels.find((v) => v.id === chosen);
  const open = openNow(state.snapshot.inUse, state.snapshot.emptied, lookup.at);
  const inIt = open.filter((u) => u.station === chosen);
  const finish = (text: string): void => {
    setAsking(undefined);
    setDone(text);
  };
  return (
    <Screen title="Bins and tubs" back={back}>
      {done === undefined ? null : <Notice tone="good" title={`On record: ${done}`} />}
      {vessels.length === 0 ? (
        <Empty>No bin or tub is in use here yet; it is set up in the office.</Empty>
      ) : (
        <Choice label="Which?" value={chosen} onChange={setChosen} options={vessels.map((v) => ({ value: v.id, text: v.name }))} />
      )}
      {vessel ? (
        <Section title={`In ${vessel.name} now`}>
          {inIt.length === 0 ? (
            <Empty>Nothing by the records.</Empty>
          ) : (
            <ul className="rows">
              {inIt.map((u) => (
                <li key={u.id} className="row">
                  <span className="row-main">
                    <strong>{u.name}</strong> {codeOf(lookup, u.lot).code} since {whenText(u.at, now, zone)}
                  </span>
                  <TroubleWord trouble={saidOf(lookup, u.lot)} />
                </li>
              ))}
            </ul>
          )}
          <div className="buttons">
            <Button needs="record" look="go" onClick={() => setAsking('up')}>
              Fill or top up
            </Button>
            <Button needs="record" onClick={() => setAsking('out')}>
              Emptied and cleaned
            </Button>
          </div>
        </Section>
      ) : null}
      <Caution />
      {vessel && asking === 'up' ? (
        <TopUp
          vessel={vessel}
          content={inIt[0]}
          onClose={() => setAsking(undefined)}
          onDone={() => finish(`${vessel.name} was topped up`)}
        />
      ) : null}
      {vessel && asking === 'out' ? (
        <CleanOut vessel={vessel} onClose={() => setAsking(undefined)} onDone={() => finish(`${vessel.name} was emptied and cleaned`)} />
      ) : null}
    </Screen>
  );
}

interface AskingProps {
  readonly vessel: Row<'place'>;
  readonly onClose: () => void;
  readonly onDone: () => void;
}

function CleanOut({ vessel, onClose, onDone }: AskingProps) {
  const { act, busy, trouble } = useAct();
  const save = async (): Promise<void> => {
    if (await act({ kind: 'vessel-cleaned-out', payload: { vessel: vessel.id } })) onDone();
  };
  return (
    <Sheet title={`${vessel.name}: emptied and cleaned`} onClose={onClose}>
      {trouble}
      <p>Only when nothing of what was in it is left. What is put in next then holds nothing of it, in every trace from now on.</p>
      <div className="buttons">
        <Button look="go" disabled={busy} onClick={() => void save()}>
          It is empty and clean
        </Button>
      </div>
    </Sheet>
  );
}

function TopUp({ vessel, content, onClose, onDone }: AskingProps & { readonly content: Row<'inUse'> | undefined }) {
  const { lookup } = useNight();
  const [material, setMaterial] = useState<string | null>(content?.material ?? null);
  const [lot, setLot] = useState<string | null>(null);
  const amount = useAmount(unitsOf(lookup, lot === '' ? null : lot));
  const { act, busy, trouble } = useAct();
  const { unlessTroubled, asked } = useAllTheSame();
  const { quantity } = amount;
  const lots = material === null ? [] : lotsToOpen(lookup, material);
  const save = async (): Promise<void> => {
    if (material === null) return;
    const line = {
      material,
      lot: lot === '' ? null : lot,
      quantity,
      how: quantity === null ? ('estimated' as const) : ('weighed' as const),
    };
    if (await act({ kind: 'vessel-topped-up', payload: { vessel: vessel.id, material, kept: null, keptHow: 'estimated', added: [line] } }))
      onDone();
  };
  if (material === null) return <WhatGoesIn onClose={onClose} onChosen={setMaterial} />;
  return (
    <Sheet title={`${vessel.name}: fill or top up`} onClose={onClose}>
      {trouble}
      {asked}
      <Choice
        label="Of which lot?"
        value={lot}
        onChange={setLot}
        options={[...lots.map((l) => ({ value: l.id, text: offered(lookup, l.id) })), { value: '', text: 'lot not known' }]}
      />
      <AmountPad label="How much goes in, if weighed" amount={amount} />
      {content ? <p className="hint">What is in it stays in it: from now on all of it counts as one lot.</p> : null}
      <div className="buttons">
        <Button look="go" disabled={busy || lot === null} onClick={() => unlessTroubled([lot === '' ? null : lot], () => void save())}>
          Record it
        </Button>
      </div>
    </Sheet>
  );
}

const offered = (lookup: Lookup, lot: string) => (
  <>
    {codeText(codeOf(lookup, lot))}
    {leftByRecords(leftRangeIn(lookup, lot))} <TroubleWord trouble={saidOf(lookup, lot)} />
  </>
);

function WhatGoesIn({ onClose, onChosen }: { readonly onClose: () => void; readonly onChosen: (material: string) => void }) {
  const { state } = useNight();
  const [search, setSearch] = useState('');
  const wanted = search.trim().toLowerCase();
  const materials = [...new Map(state.snapshot.specification.filter((s) => s.type !== 'product').map((s) => [s.material, s.name]))]
    .filter(([, name]) => name.toLowerCase().includes(wanted))
    .sort((a, b) => a[1].localeCompare(b[1]));
  return (
    <Sheet title="What goes in?" onClose={onClose}>
      <Field label="Find it by name" value={search} onChange={setSearch} />
      <Tiles label="Materials">
        {materials.slice(0, 12).map(([id, name]) => (
          <Tile key={id} title={name} onClick={() => onChosen(id)} />
        ))}
      </Tiles>
    </Sheet>
  );
}
