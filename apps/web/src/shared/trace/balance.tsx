import type { TraceView } from '@bakehouse/contracts';
import { massRange, whole } from '../format';
import { StateWord } from '../../ui';
import { amountText, causeWords, dayTime, findingWords } from './words';

type Account = TraceView['suspectBalances'][number];

/** Whether it adds up: received or made, used and dispatched, left, unaccounted. */
export function Balances({ of, zone }: { readonly of: readonly Account[]; readonly zone: string }) {
  return (
    <div className="cards">
      {of.map((a) => (
        <One key={a.lots.join()} a={a} zone={zone} />
      ))}
    </div>
  );
}

function One({ a: { name, code, balance: b }, zone }: { readonly a: Account; readonly zone: string }) {
  const good = b.finding === 'none';
  const wrong = b.finding === 'not-all-accounted' || b.finding === 'more-than-there-was';
  return (
    <div className="card balance">
      <h3>
        {name}
        {code === null ? '' : `, lot ${code}`}
      </h3>
      <p>
        <StateWord
          shape={good ? 'disc' : wrong ? 'triangle' : 'ring'}
          tone={good ? 'good' : wrong ? 'bad' : 'calm'}
        >{`${findingWords[b.finding]}`}</StateWord>
      </p>
      <Sums b={b} zone={zone} />
      {wrong && b.likelyCauses.length > 0 ? (
        <>
          <p>Look here first:</p>
          <ol className="causes">
            {b.likelyCauses.map((c) => (
              <li key={c.cause}>
                {causeWords[c.cause]}: {amountText(c.amount, b.measure)} in {c.times} {c.times === 1 ? 'entry' : 'entries'}
              </li>
            ))}
          </ol>
        </>
      ) : null}
      {b.finding === 'nobody-counted' ? (
        <p>Count what is left and record it; then it can be said whether all of it is accounted for.</p>
      ) : null}
    </div>
  );
}

/** What is left; where nobody knows, no more than what the records leave of it. */
function leftText({ onHand, atMost, measure, perhaps, counted }: Account['balance']): string {
  // What may have gone before a count is in that count.
  if (onHand !== null && counted === null && perhaps > 0 && onHand.amount > 0) {
    const least = Math.max(0, onHand.amount - perhaps);
    return measure === 'mg' ? massRange(onHand.amount, perhaps) : `${whole(least)} to ${amountText(onHand.amount, measure)}`;
  }
  if (onHand !== null) return amountText(onHand.amount, measure);
  return atMost === null ? '–' : `at most ${amountText(atMost, measure)}`;
}

function Sums({ b, zone }: { readonly b: Account['balance']; readonly zone: string }) {
  const percent = b.accountedBasisPoints === null ? null : (b.accountedBasisPoints / 100).toFixed(2);
  return (
    <dl className="sums">
      <dt>Received or made</dt>
      <dd>{amountText(b.received, b.measure)}</dd>
      <dt>Used and dispatched</dt>
      <dd>
        {b.withoutAmount === 0
          ? amountText(b.gone, b.measure)
          : `at least ${amountText(b.gone, b.measure)}; ${b.withoutAmount} ${b.withoutAmount === 1 ? 'entry' : 'entries'} without an amount`}
      </dd>
      {b.perhaps === 0 ? null : (
        <>
          <dt>Possibly gone besides, as one of several lots</dt>
          <dd>up to {amountText(b.perhaps, b.measure)}</dd>
        </>
      )}
      {b.lost === 0 ? null : (
        <>
          <dt>Lost in making it</dt>
          <dd>{amountText(b.lost, b.measure)}</dd>
        </>
      )}
      <dt>Left, {b.onHand === null ? 'not known' : b.onHand.by === 'count' ? 'counted' : 'by the records'}</dt>
      <dd>{leftText(b)}</dd>
      {b.counted === null ? null : (
        <>
          <dt>Counted {dayTime(b.counted.at, zone)}</dt>
          <dd>
            {amountText(b.counted.amount, b.measure)}
            {b.counted.goneSince === 0 ? '' : `, gone since: ${amountText(b.counted.goneSince, b.measure)}`}
          </dd>
        </>
      )}
      {b.unaccounted === null ? null : (
        <>
          <dt>{b.unaccounted < 0 ? 'More than received or made' : 'Unaccounted'}</dt>
          <dd>
            <strong>
              {b.unaccounted > 0 && b.withoutAmount > 0 ? 'up to ' : ''}
              {amountText(Math.abs(b.unaccounted), b.measure)}
            </strong>
          </dd>
        </>
      )}
      {percent === null ? null : (
        <>
          <dt>Accounted for</dt>
          <dd>
            {b.withoutAmount === 0 ? '' : 'at least '}
            {percent} %
          </dd>
        </>
      )}
    </dl>
  );
}
