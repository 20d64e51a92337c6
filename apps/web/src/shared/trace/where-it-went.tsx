import type { TraceView } from '@bakehouse/contracts';
import { phrase, type PhraseKey } from '@bakehouse/records';
import { comesOff, type ComesOff, wentUnnamed, wentUnnamedText } from '@bakehouse/views';
import type { ReactNode } from 'react';
import { Concerns } from '../concerns';
import { dayText, whole } from '../format';
import { Shelves } from '../shelves';
import { Empty, Notice, StateWord } from '../../ui';
import { noneText } from './partial';
import { amountText, dayTime, ofLot } from './words';

interface OfTrace {
  readonly trace: TraceView;
  /** The case that it is the trace of, if it is one's. */
  readonly recall?: Parameters<typeof comesOff>[1];
}

/** What is not surely gone, by count or by the records, with what speaks against it now. A case says more of each lot: it gives its own states. */
export function InTheHouse({ trace, recall, states }: OfTrace & { readonly states?: (lot: LotInTheHouse) => ReactNode }) {
  if (trace.onHand.length === 0) return <Empty>{noneText(trace, 'By the records none of it is left here.')}</Empty>;
  const names = new Map(trace.lots.map((l) => [l.id, l.name]));
  const off = comesOff(trace, recall);
  return (
    <ul className="rows">
      {trace.onHand.map((o) => (
        <li key={o.lot} className="row">
          <span className="row-main">
            <strong>{onHandText(o)}</strong> {o.name}
            {o.code === null ? '' : `, lot ${o.code}`}
          </span>
          <span className="row-side">
            {o.by === 'count' ? 'counted' : 'by the records, not counted'}, {o.site}
          </span>
          {o.pastUseBy === null ? null : (
            <StateWord shape="diamond" tone="bad">
              {`past its use-by date, ${dayText(o.pastUseBy)}`}
            </StateWord>
          )}
          <Shelves shelves={o.shelves} off={off(o.lot)} />
          {restText(o) === null ? null : <span className="row-side">{restText(o)}</span>}
          <Concerns concerns={o.concerns} lot={o.lot} names={names} />
          {states?.(o)}
        </li>
      ))}
    </ul>
  );
}

export type LotInTheHouse = TraceView['onHand'][number];

/** Below zero, more went than there was: so there may be some. */
const onHandText = ({ amount, measure }: LotInTheHouse): string =>
  amount !== null && amount < 0 ? `more gone than there was, by ${amountText(-amount, measure)}` : amountText(amount, measure);

/** Where it left the house, by way, with every departure behind the sum. */
export function WhereItWent({ trace, zone }: { readonly trace: TraceView; readonly zone: string }) {
  if (trace.ends.length === 0) return <Empty>{noneText(trace, 'By the records none of it has left the house.')}</Empty>;
  const channels = [...new Set(trace.ends.map((e) => e.channel))];
  const lots = new Map(trace.lots.map((l) => [l.id, l]));
  return (
    <>
      <MoreThanThereWas trace={trace} />
      <div className="cards">
        {channels.map((channel) => {
          const ends = trace.ends.filter((e) => e.channel === channel);
          const pieces = ends.reduce((n, e) => n + (e.pieces ?? 0), 0);
          const mg = ends.reduce((n, e) => n + (e.pieces === null ? (e.mg ?? 0) : 0), 0);
          return (
            <div key={channel} className="card">
              <h3>
                {phrase(`channel.${channel}` as PhraseKey)}
                {ends.every((e) => e.stays) ? ': in the house still, or sold there' : ''}
              </h3>
              <p className="sum">
                {[...(pieces > 0 ? [amountText(pieces, 'pieces')] : []), ...(mg > 0 ? [amountText(mg, 'mg')] : [])].join(' and ') ||
                  'amount not known'}
              </p>
              <details>
                <summary>
                  {whole(ends.length)} {ends.length === 1 ? 'time' : 'times'}
                </summary>
                <ul>
                  {ends.map((e, i) => (
                    <li key={`${e.lots.join()} ${i}`}>
                      {dayTime(e.at, zone)}: {e.decided === null ? '' : 'by signed decision, '}
                      {ofLot(e)} {[...new Set(e.lots.map((lot) => lots.get(lot)?.name))].join(' or ')}
                      {e.customerName === null ? '' : ` to ${e.customerName}`}
                      {e.certain ? '' : ' (possible)'}
                    </li>
                  ))}
                </ul>
              </details>
            </div>
          );
        })}
      </div>
    </>
  );
}

/** Where the amounts below are more than there was of a lot: one of them may be recorded twice. */
function MoreThanThereWas({ trace }: { readonly trace: TraceView }) {
  const over = trace.doesNotAddUp.filter(({ balance }) => balance.finding === 'more-than-there-was' && balance.unaccounted !== null);
  return over.map(({ lots, name, code, balance }) => (
    <Notice
      key={lots.join()}
      tone="bad"
      title={`More is recorded as gone than there was: ${name}${code === null ? '' : `, ${code}`}, by ${amountText(Math.abs(balance.unaccounted ?? 0), balance.measure)}`}
    >
      <p>
        The same food may stand here twice, such as destroyed by decision and thrown away. Correct the record that is wrong, or count it.
      </p>
    </Notice>
  ));
}

/** What is besides on no shelf; null where it stands in one place alone. */
function restText({ shelves, inStore, measure }: LotInTheHouse): string | null {
  if (inStore === null || (shelves.inShop === null && shelves.onCounter.length === 0)) return null;
  return `on no counter, ${inStore.site}: ${amountText(inStore.amount, measure)}`;
}

/** What went to people whom nobody can name: summed by way, and each with its times for the notice. */
export function NobodyCanName({ trace, recall, zone }: OfTrace & { readonly zone: string }) {
  const off = comesOff(trace, recall);
  if (trace.counter.length === 0)
    return <Empty>{noneText(trace, 'By the records none of it was on a counter or went to anybody whose name is not known.')}</Empty>;
  return (
    <>
      {wentUnnamed(trace.counter).map((w) => (
        <p key={`${w.way} ${w.certain ? 1 : 0}`}>
          {phrase(`channel.${w.way}` as PhraseKey)}: <strong>{wentUnnamedText(w)}</strong>
          {w.certain ? '' : ' (possible)'}
        </p>
      ))}
      <ul className="rows">
        {trace.counter.map((w) => (
          <li key={`${w.lots.join()} ${w.way} ${w.from}`} className="row">
            <span className="row-main">
              <strong>{w.name}</strong>
              {w.code === null ? '' : `, lot ${w.code}`}, {w.site}, {phrase(`channel.${w.way}` as PhraseKey)}
              {w.certain ? '' : ' (possible)'}
            </span>
            <span>{timesText(w, zone, w.lots.map(off))}</span>
            <span className="row-side">{w.pieces === null ? 'pieces not counted' : `${whole(w.pieces)} ${wentText(w)}`}</span>
          </li>
        ))}
      </ul>
    </>
  );
}

function wentText({ way, until, sold }: TraceView['counter'][number]): string {
  if (until === null) return sold === null || sold === 0 ? 'put out' : `put out, ${whole(sold)} of them sold`;
  return way === 'counter' || way === 'stall' || way === 'eaten-in' ? 'sold' : 'given or sent';
}

function timesText({ from, until }: TraceView['counter'][number], zone: string, off: readonly ComesOff[]): string {
  if (until === null)
    return `${dayTime(from, zone)} to now${off.includes(true) ? ': take it off' : off.includes('practice') ? ', on the counter; practice: would be taken off' : ', on the counter'}`;
  return from === until ? dayTime(from, zone) : `${dayTime(from, zone)} to ${dayTime(until, zone)}`;
}
