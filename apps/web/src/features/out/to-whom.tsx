import { partiesAt } from '@bakehouse/records';
import type { OrderOfDay } from '@bakehouse/views';
import { dayText, wallTime, whole } from '../../shared/format';
import { Button, Choice, Field, Notice } from '../../ui';
import type { ChannelChoice } from './channels';
import type { Sending } from './use-sending';

/** Who gets it, whether somebody took it, and where what is filled in comes from. */
export function ToWhom({ choice, sending: s }: { readonly choice: ChannelChoice; readonly sending: Sending }) {
  if (choice.parties.length === 0) return null;
  const known = partiesAt(s.night.state.snapshot, s.night.now).filter((p) => choice.parties.includes(p.type));
  const options = known.map((p) => ({ value: p.party, text: p.name ?? 'no name' }));
  return (
    <>
      <Choice
        label="To whom?"
        value={s.customer ?? (s.toNobody === null ? null : '')}
        onChange={(id) => {
          s.setCustomer(id === '' ? null : id);
          if (id === '') s.setToNobody({ who: '' });
        }}
        options={[...options, { value: '', text: 'nobody on the list' }]}
      />
      {s.customer === null && s.toNobody === null ? null : (
        <Choice
          label="Was somebody there?"
          value={s.leftAlone === null ? null : s.leftAlone ? 'no' : 'yes'}
          onChange={(there) => s.setLeft(there === 'no')}
          options={[
            { value: 'yes', text: 'somebody took it' },
            { value: 'no', text: 'left with nobody there' },
          ]}
        />
      )}
      {s.toNobody === null || s.leftAlone === null ? null : (
        <Field
          label={s.leftAlone ? 'Where was it left?' : 'Who took it? A name, a house or how to find them again'}
          value={s.toNobody.who}
          onChange={(who) => s.setToNobody({ who })}
          maxLength={150}
        />
      )}
      {s.receiver ? null : <p className="hint">{missingText(s)} In a recall somebody has to find them.</p>}
      <FromWhere sending={s} />
    </>
  );
}

const missingText = ({ customer, toNobody, leftAlone }: Sending): string =>
  customer === null && toNobody === null
    ? 'Say who gets it.'
    : leftAlone === null
      ? 'Say whether somebody took it.'
      : 'Say who took it, in a few words.';

function FromWhere({ sending: { orders, order, party, night, sendAgain } }: { readonly sending: Sending }) {
  if (orders === null) return null;
  const name = party?.name ?? 'They';
  if (orders.today !== null && order === null)
    return (
      <Notice tone="ask" title={`${name}: something went there today, ${wallTime(orders.today.at, night.zone)}`}>
        <p>{contents(orders.today)}. So nothing is filled in.</p>
        {orders.last === null ? null : (
          <div className="buttons">
            <Button onClick={sendAgain}>Fill it in as on {dayText(orders.last.day)}</Button>
          </div>
        )}
      </Notice>
    );
  if (order === null) return <p className="order-from">No earlier order of theirs is on this tablet: nothing is filled in.</p>;
  return (
    <p className="order-from">
      As on <strong>{dayText(order.day)}</strong>, by what was recorded then. Change what is different.
      {order.unnamed === 0
        ? null
        : ` ${whole(order.unnamed)} more that went then cannot be named on this tablet: the order is not all here.`}
    </p>
  );
}

const contents = (o: OrderOfDay): string =>
  [
    ...o.lines.map((l) => (l.pieces === null ? l.name : `${whole(l.pieces)} ${l.name}`)),
    ...(o.unnamed === 0 ? [] : [`${whole(o.unnamed)} more that cannot be named here`]),
  ].join(', ');
