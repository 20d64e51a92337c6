import type { NewEntryOf, Row } from '@bakehouse/records';
import type { LotOnHand } from '@bakehouse/views';
import { useState } from 'react';
import { whenText, whole } from '../../shared/format';
import { useAct } from '../../shared/use-act';
import { Button, Caution, Empty, NumberPad, Screen, Section, Sheet } from '../../ui';
import { useAllTheSame } from '../../shared/night/all-the-same';
import { paths } from '../../shared/night/paths';
import { unsaidOf, useContents, WhatIsInIt } from './contents';
import { LotState } from './left';
import { useOnHand } from './use-on-hand';

const isThere = (on: LotOnHand['onCounter']): string => (on === null || on.pieces === null ? '' : `, ${whole(on.pieces)} there`);

interface CounterChange {
  readonly lot: string;
  readonly title: string;
  readonly way: Row<'onCounter'>['way'];
  readonly had: number | null;
}

interface Titled {
  readonly lot: LotOnHand;
  readonly title: string;
}

/** What stands on the counter since when, and what comes off it: sold in between to people whom nobody can name. */
export function CounterPage() {
  const { night, products, here } = useOnHand();
  const [change, setChange] = useState<CounterChange>();
  const { unlessTroubled, asked } = useAllTheSame();
  const lots = products.flatMap((p) => p.lots.map((lot) => ({ lot, title: `${p.name}, ${lot.code}` })));
  const on = lots.filter(({ lot }) => lot.onCounter !== null);
  const rest = lots.filter(({ lot }) => lot.onCounter === null && lot.here);
  const gone = lots.filter(({ lot }) => lot.onCounter === null && !lot.here);
  const contentsOf = useContents(here);
  const putOn = ({ lot, title }: Titled): void =>
    unlessTroubled(
      [lot.id],
      () => setChange({ lot: lot.id, title, way: 'on', had: lot.left }),
      'leaving',
      unsaidOf(
        here.filter((p) => p.lots.some((l) => l.id === lot.id)),
        contentsOf,
      ),
    );
  return (
    <Screen title="Counter" back={{ to: paths.out, text: 'Send out' }}>
      <Section title="On the counter">
        {on.length === 0 ? (
          <Empty>Nothing is on the counter.</Empty>
        ) : (
          <ul className="rows">
            {on.map(({ lot, title }) => (
              <li key={lot.id} className="row">
                <span className="row-main">
                  <strong>{title}</strong> since {whenText(lot.onCounter?.since ?? night.now, night.now, night.zone)}
                  {isThere(lot.onCounter)}
                </span>
                <LotState lot={lot} />
                <Button
                  needs="record"
                  label={`${title}: off the counter`}
                  onClick={() => setChange({ lot: lot.id, title, way: 'off', had: lot.onCounter?.pieces ?? null })}
                >
                  Off
                </Button>
              </li>
            ))}
          </ul>
        )}
      </Section>
      <WhatIsInIt products={here} contentsOf={contentsOf} />
      <Section title="Not on the counter">
        {rest.length === 0 ? <Empty>Everything that is left stands on the counter.</Empty> : <NotOn lots={rest} onPut={putOn} />}
        {gone.length === 0 ? null : (
          <details>
            <summary>Gone by the records: {whole(gone.length)}</summary>
            <NotOn lots={gone} onPut={putOn} />
          </details>
        )}
      </Section>
      <Caution />
      {asked}
      {change ? <HowMany key={`${change.lot} ${change.way}`} change={change} onClose={() => setChange(undefined)} /> : null}
    </Screen>
  );
}

const NotOn = ({ lots, onPut }: { readonly lots: readonly Titled[]; readonly onPut: (of: Titled) => void }) => (
  <ul className="rows">
    {lots.map((of) => (
      <li key={of.lot.id} className="row">
        <span className="row-main">
          <strong>{of.title}</strong> {of.lot.left === null ? '' : `${whole(of.lot.left)} left`}
        </span>
        <LotState lot={of.lot} />
        <Button needs="record" label={`${of.title}: on the counter`} onClick={() => onPut(of)}>
          On
        </Button>
      </li>
    ))}
  </ul>
);

/** How many go on; or how many are left, and then what is missing was sold. */
function HowMany({ change: { lot, title, way, had }, onClose }: { readonly change: CounterChange; readonly onClose: () => void }) {
  const [pieces, setPieces] = useState(way === 'on' && had !== null && had > 0 ? String(had) : '');
  const { act, busy, trouble } = useAct();
  const sold = way === 'off' && had !== null ? had - Number(pieces) : 0;
  const save = async (): Promise<void> => {
    const counter: NewEntryOf<'put-on-counter'> = {
      kind: 'put-on-counter',
      payload: { lot, way, pieces: pieces === '' ? null : Number(pieces) },
    };
    const line = { lots: [lot], quantity: { figure: String(sold), unit: 'piece' as const }, how: 'counted' as const };
    const sale: NewEntryOf<'sent-out'> = {
      kind: 'sent-out',
      payload: { channel: 'counter', customer: null, unattended: false, until: null, lines: [line] },
    };
    if (await (pieces !== '' && sold > 0 ? act(sale, [counter]) : act(counter))) onClose();
  };
  return (
    <Sheet title={`${title}: ${way} the counter`} onClose={onClose}>
      {trouble}
      <NumberPad
        label={way === 'on' ? 'How many go on?' : 'How many are left of them?'}
        value={pieces}
        decimals={false}
        maxDigits={5}
        onEnter={() => void save()}
        onChange={setPieces}
      />
      {way === 'off' && pieces !== '' && had !== null ? (
        <p className="sum" role="status">
          {sold >= 0 ? `${whole(sold)} sold over the counter.` : `${whole(-sold)} more than there were: count again, or count the lot.`}
        </p>
      ) : null}
      <div className="buttons">
        <Button look="go" disabled={busy} onClick={() => void save()}>
          {pieces === '' ? 'Record it without a number' : 'Record it'}
        </Button>
      </div>
    </Sheet>
  );
}
