import type { TraceView } from '@bakehouse/contracts';
import { phrase, type PhraseKey } from '@bakehouse/records';
import { Link } from 'wouter';
import { whole } from '../format';
import { office } from '../office-paths';
import { Empty, StateWord } from '../../ui';
import { noneText } from './partial';
import { dayTime, heldText, throughText } from './words';

/** Every lot that was reached: what surely holds it first, then what may. */
export function LotsTable({ trace, zone, shares }: { readonly trace: TraceView; readonly zone: string; readonly shares: boolean }) {
  const names = new Map(trace.lots.map((l) => [l.id, l.code === null ? l.name : `${l.name} ${l.code}`]));
  const suspects = new Set(trace.suspects);
  const others = trace.lots.filter((l) => !suspects.has(l.id)).sort((a, b) => a.steps - b.steps || (a.at < b.at ? -1 : 1));
  const forward = trace.direction === 'forward';
  const part = (certain: boolean, title: string) => {
    const lots = others.filter((l) => l.certain === certain);
    return lots.length === 0 ? null : (
      <table className="lines">
        <caption>
          <StateWord shape={certain ? 'triangle' : 'diamond'} tone={certain ? 'bad' : 'ask'}>{`${title}: ${whole(lots.length)}`}</StateWord>
        </caption>
        <thead>
          <tr>
            <th scope="col">Lot</th>
            <th scope="col">When</th>
            <th scope="col">How it got there</th>
            {shares ? (
              <th scope="col" className="amount">
                How much of it
              </th>
            ) : null}
          </tr>
        </thead>
        <tbody>
          {lots.map((l) => (
            <tr key={l.id}>
              <td>
                <Link href={office.lot(l.id)}>{names.get(l.id)}</Link>
                <br />
                <span className="faint">
                  {phrase(`lot.${l.type}` as PhraseKey)}
                  {l.pieces === null ? '' : `, ${whole(l.pieces)} pieces`}, {l.site}
                </span>
              </td>
              <td>{dayTime(l.at, zone)}</td>
              <td>{throughText(l, names)}</td>
              {shares ? <td className="amount">{heldText(l)}</td> : null}
            </tr>
          ))}
        </tbody>
      </table>
    );
  };
  return (
    <>
      {others.length === 0 ? (
        <Empty>{noneText(trace, forward ? 'Nothing was made with it or from it.' : 'Nothing went into it.')}</Empty>
      ) : null}
      {part(true, 'Certain')}
      {part(false, 'Possible')}
      {trace.hidden.map((h) => (
        <p key={h.site}>
          {h.site}: {whole(h.lots)} more lots that you may not look at. Ask the manager of that site.
        </p>
      ))}
    </>
  );
}
