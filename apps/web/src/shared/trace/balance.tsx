import type { TraceView } from '@bakehouse/contracts';
import { StateWord } from '../ui';
import { amountText, causeWords, findingWords } from './words';

type Account = TraceView['suspectBalances'][number];

/** Whether it adds up: received or made, used and dispatched, left, unaccounted. */
export function Balances({ of }: { readonly of: readonly Account[] }) {
  return (
    <div className="cards">
      {of.map((a) => (
        <One key={a.lot} a={a} />
      ))}
    </div>
  );
}

function One({ a: { name, code, balance: b } }: { readonly a: Account }) {
  const percent = b.accountedBasisPoints === null ? null : (b.accountedBasisPoints / 100).toFixed(2);
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
      <dl className="sums">
        <dt>Received or made</dt>
        <dd>{amountText(b.received, b.measure)}</dd>
        <dt>Used and dispatched</dt>
        <dd>{amountText(b.gone, b.measure)}</dd>
        <dt>Left, {b.onHand === null ? 'not known' : b.onHand.by === 'count' ? 'counted' : 'by the records'}</dt>
        <dd>{b.onHand === null ? '–' : amountText(b.onHand.amount, b.measure)}</dd>
        {b.unaccounted === null ? null : (
          <>
            <dt>{b.unaccounted < 0 ? 'More than received or made' : 'Unaccounted'}</dt>
            <dd>
              <strong>{amountText(Math.abs(b.unaccounted), b.measure)}</strong>
            </dd>
          </>
        )}
        {percent === null ? null : (
          <>
            <dt>Accounted for</dt>
            <dd>{percent} %</dd>
          </>
        )}
      </dl>
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
