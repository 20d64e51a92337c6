import { channel, phrase, returnedDisposition, type Row } from '@bakehouse/records';
import { useState } from 'react';
import { whole } from '../../shared/format';
import { dayTime } from '../../shared/trace/words';
import { useAct } from '../../shared/use-act';
import { AmountPad, unitsOf, useAmount } from '../../shared/amount-pad';
import { Button, Caution, Choice, Empty, Field, Screen, Section, Sheet } from '../../ui';
import { paths } from '../../shared/night/paths';
import { useNight } from '../../shared/night/use-night';

const dispositions = returnedDisposition.extract(['waste', 'on-hand', 'rework', 'feed', 'donation']).options;
const returning = channel.extract(['round', 'dispatch', 'stall', 'own-shop', 'donation']);

/** What a round, a stall or a customer brought back, and its disposition. */
export function Returned() {
  const { state, zone } = useNight();
  const [asked, setAsked] = useState<Row<'departure'>>();
  const parties = new Map(state.snapshot.party.map((p) => [p.party, p.name]));
  const title = (d: Row<'departure'>): string => {
    const lot = state.rows.get('lot', d.lot);
    return `${lot?.name ?? 'a lot'}${lot?.code ? `, ${lot.code}` : ''}`;
  };
  const [search, setSearch] = useState('');
  const wanted = search.trim().toLowerCase();
  const textOf = (d: Row<'departure'>): string => `${title(d)} ${d.customer === null ? '' : (parties.get(d.customer) ?? '')}`;
  const left = state.snapshot.departure
    .filter((d) => returning.safeParse(d.channel).success && textOf(d).toLowerCase().includes(wanted))
    .sort((a, b) => (a.at < b.at ? 1 : -1))
    .slice(0, 60);
  return (
    <Screen title="Came back" back={{ to: paths.out, text: 'Send out' }}>
      <Field label="Find it by name, code or customer" value={search} onChange={setSearch} />
      <Section title="From what went out">
        {left.length === 0 ? (
          <Empty>Nothing of that name went out in the last two months, as far as this tablet knows.</Empty>
        ) : (
          <ul className="rows">
            {left.map((d) => (
              <li key={d.id}>
                <button type="button" className="row" onClick={() => setAsked(d)}>
                  <span className="row-main">
                    <strong>{title(d)}</strong> {d.pieces === null ? '' : `${whole(d.pieces)} `}
                    {phrase(`channel.${d.channel}`)}
                    {d.customer === null ? '' : `, ${parties.get(d.customer) ?? 'no name'}`}
                    {d.certain ? '' : ', possibly of this lot'}
                  </span>
                  <span className="row-side">{dayTime(d.at, zone)}</span>
                </button>
              </li>
            ))}
          </ul>
        )}
      </Section>
      <Caution />
      {asked ? <HowMany key={asked.id} of={asked} title={title(asked)} onClose={() => setAsked(undefined)} /> : null}
    </Screen>
  );
}

function HowMany({ of, title, onClose }: { readonly of: Row<'departure'>; readonly title: string; readonly onClose: () => void }) {
  const amount = useAmount(unitsOf(useNight().lookup, of.lot));
  const [disposition, setDisposition] = useState<(typeof dispositions)[number] | null>(null);
  const { act, busy, trouble } = useAct();
  const out = useStillOut(of);
  const inPieces = amount.unit === 'piece';
  const stayed = out === null || !inPieces || amount.typed === '' ? null : out - Number(amount.typed);
  const save = async (): Promise<void> => {
    if (disposition === null || amount.quantity === null) return;
    const about = { lot: of.lot, departure: of.id, customer: of.customer };
    const payload = { ...about, quantity: amount.quantity, how: inPieces ? ('counted' as const) : ('weighed' as const), disposition };
    if (await act({ kind: 'goods-returned', payload })) onClose();
  };
  return (
    <Sheet title={`${title}: came back`} onClose={onClose}>
      {trouble}
      <AmountPad label={inPieces ? 'How many' : 'How much'} amount={amount} />
      {stayed === null ? null : (
        <p className="sum" role="status">
          {stayed < 0
            ? `${whole(-stayed)} more than went there: count again.`
            : `${whole(stayed)} ${of.channel === 'stall' ? 'sold on the stall' : 'stayed there'}.`}
        </p>
      )}
      <Choice
        label="Disposition"
        value={disposition}
        onChange={setDisposition}
        options={dispositions.map((f) => ({ value: f, text: phrase(`returned.${f}`) }))}
      />
      <div className="buttons">
        <Button look="go" disabled={busy || disposition === null || Number(amount.typed) === 0} onClick={() => void save()}>
          Record it
        </Button>
      </div>
    </Sheet>
  );
}

/** How many of what went out that time did not come back yet; what went as one of several lots is counted once. Null where nobody counted. */
function useStillOut(of: Row<'departure'>): number | null {
  const { departure, returned } = useNight().state.snapshot;
  const same = new Set(departure.filter((d) => d.id === of.id || (of.anyOf !== null && d.anyOf === of.anyOf)).map((d) => d.id));
  return returned
    .filter((c) => c.departure !== null && same.has(c.departure))
    .reduce<number | null>((left, c) => (left === null || c.pieces === null ? null : left - c.pieces), of.pieces);
}
